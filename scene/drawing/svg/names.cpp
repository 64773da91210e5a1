#include "scene/drawing/svg/names.h"

#include <algorithm>
#include <charconv>

namespace rakelight {
namespace {

void append_utf8(std::string& text, unsigned code) {
    const auto put = [&](unsigned byte) { text += static_cast<char>(byte); };
    if (code < 0x80) return put(code);
    if (code < 0x800)
        put(0xc0 | code >> 6);
    else if (code < 0x10000)
        put(0xe0 | code >> 12), put(0x80 | (code >> 6 & 0x3f));
    else
        put(0xf0 | code >> 18), put(0x80 | (code >> 12 & 0x3f)), put(0x80 | (code >> 6 & 0x3f));
    put(0x80 | (code & 0x3f));
}

bool is_digits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == text.npos;
}

}  // namespace

std::string plain_name(std::string_view id) {
    std::string name;
    for (std::size_t at = 0; at < id.size();) {
        const std::size_t end = id.find('_', at + 1);
        if (id.substr(at, 2) == "_x" && end != id.npos && end - at >= 4 && end - at <= 8) {
            unsigned code = 0;
            const auto [last, error] = std::from_chars(id.data() + at + 2, id.data() + end, code, 16);
            if (error == std::errc{} && last == id.data() + end && code >= 0x20 && code < 0x110000) {
                append_utf8(name, code);
                at = end + 1;
                continue;
            }
        }
        name += id[at++];
    }
    if (name.ends_with('_')) {
        const std::size_t before = name.rfind('_', name.size() - 2);
        if (before != name.npos && before > 0 &&
            is_digits(std::string_view(name).substr(before + 1, name.size() - before - 2)))
            name.resize(before);
    }
    return name;
}

DrawnName svg_name_of(const pugi::xml_node& element) {
    DrawnName name{"", element.attribute("id").value()};
    for (const pugi::xml_attribute& each : element.attributes()) {
        const std::string_view key = each.name();
        const std::size_t colon = key.find(':');
        const std::string_view local = colon == key.npos ? "" : key.substr(colon + 1);
        if (local == "label" || local == "id" || local == "name" || key == "data-name") {
            name.label = each.value();
            break;
        }
    }
    if (name.label.empty()) name.label = plain_name(name.id);
    return name;
}

std::string_view svg_href_of(const pugi::xml_node& element) {
    for (const pugi::xml_attribute& each : element.attributes()) {
        const std::string_view key = each.name();
        if (key == "href" || key.ends_with(":href")) return each.value();
    }
    return {};
}

}  // namespace rakelight
