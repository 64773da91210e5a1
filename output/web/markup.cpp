#include "output/web/markup.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace rakelight {

std::string html_text(std::string_view text) {
    std::string safe;
    for (const char c : text) switch (c) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            case '\'':
                safe += "&#39;";
                break;
            default:
                safe += static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' ? ' ' : c;
        }
    return safe;
}

std::string script_json(const nlohmann::ordered_json& json) {
    std::string safe;
    for (const char c : json.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace))
        if (c == '<')
            safe += "\\u003c";
        else
            safe += c;
    return safe;
}

std::string link_to(std::string_view path) {
    constexpr std::string_view kPlain = "-_.~/";
    std::string link;
    for (const char c : path) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           kPlain.find(c) != std::string_view::npos;
        if (plain)
            link += c;
        else
            link += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return link;
}

std::string filled_in(std::string_view text,
                      const std::vector<std::pair<std::string_view, std::string>>& words) {
    std::string filled;
    while (!text.empty()) {
        const std::size_t begin = text.find('@');
        const std::size_t end = begin == text.npos ? text.npos : text.find('@', begin + 1);
        if (end == text.npos) break;
        const std::string_view word = text.substr(begin + 1, end - begin - 1);
        const auto found =
            std::find_if(words.begin(), words.end(), [&](const auto& w) { return w.first == word; });
        filled += text.substr(0, begin);
        if (found != words.end()) {
            filled += found->second;
            text.remove_prefix(end + 1);
        } else {
            filled += '@';
            text.remove_prefix(begin + 1);
        }
    }
    return filled += text;
}

std::string older_mark(const std::string& layout_file) {
    if (layout_file.empty()) return "";
    return "<p class=\"older\">Older than " + html_text(layout_file) + " as it is now.</p>\n";
}

}  // namespace rakelight
