#include "scene/drawing/svg/document.h"

#include <algorithm>
#include <string>
#include <utility>

#include "scene/text/diagnostics.h"
#include "scene/text/units.h"

namespace rakelight {

SvgDocument::SvgDocument(std::string_view text, std::string file) : file_(std::move(file)) {
    const auto refuse = [&](Place place, std::string why) {
        throw LayoutError(std::move(place), "", std::move(why));
    };
    const Place whole{file_, 0, 0};
    if (text.size() > kMostDrawingBytes) refuse(whole, "found a drawing over 64 MiB, expected a smaller one");
    if (text.starts_with("\x1f\x8b"))
        refuse(whole, "found a compressed drawing, expected it saved as plain SVG");
    if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff") || text.find('\0') < text.size())
        refuse(whole, "found text that is not UTF-8, expected an SVG file saved as UTF-8");
    for (std::size_t at = text.find('\n'); at != text.npos; at = text.find('\n', at + 1))
        line_starts_.push_back(static_cast<std::ptrdiff_t>(at) + 1);

    const auto parsed =
        tree_->load_buffer(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
    if (parsed.status == pugi::status_no_document_element)
        refuse(whole, "found no elements, expected an SVG drawing");
    if (!parsed) {
        std::string why = parsed.description();
        why[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(why[0])));
        refuse(place_at(parsed.offset), "found broken XML (" + why + "), expected an SVG drawing");
    }
    const std::string_view name = root().name();
    const std::size_t colon = name.find(':');
    prefix_ = colon == name.npos ? "" : name.substr(0, colon + 1);
    if (svg_name(root()) != "svg")
        refuse(place_of(root()), "found the root element " + quoted(name) + ", expected svg");
}

std::string_view SvgDocument::svg_name(const pugi::xml_node& node) const {
    std::string_view name = node.name();
    if (!name.starts_with(prefix_)) return {};
    name.remove_prefix(prefix_.size());
    return name.find(':') == name.npos ? name : std::string_view{};
}

Place SvgDocument::place_at(std::ptrdiff_t offset) const {
    if (offset < 0) return {file_, 0, 0};
    const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
    const std::ptrdiff_t start = *(after - 1);
    return {file_, static_cast<int>(after - line_starts_.begin()), static_cast<int>(offset - start) + 1};
}

}  // namespace rakelight
