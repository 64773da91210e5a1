// Numbers, lengths and inline properties as SVG 1.1 writes them: section 4.2 (basic data types), 7.10
// (units), 6.3 and 6.4 (presentation attributes and the style attribute).
#pragma once

#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace rakelight {

/// CSS 2.1, 4.3.2: an inch is 96 px (and 25.4 mm, 72 pt, 6 pc).
inline constexpr double kMmPerPx = 25.4 / 96;

/// The text without XML white space at its ends.
std::string_view svg_trimmed(std::string_view text);

/// Takes a finite number off the front of `text`, with the white space before it and the white space and one
/// comma after it; none when there is none, and then `text` is as it was.
std::optional<double> take_svg_number(std::string_view& text);

/// All of the text as numbers; none when anything else is among them.
std::optional<std::vector<double>> read_svg_numbers(std::string_view text);

/// A length in px: a number with px, mm, cm, in, pt, pc or nothing after it. None for %, em, ex and what is
/// no length.
std::optional<double> read_svg_length_px(std::string_view text);

/// What the element itself says of a property: in `style`, or else as an attribute; empty when neither.
std::string svg_property(const pugi::xml_node& element, std::string_view name);

}  // namespace rakelight
