// The basic shapes of SVG 1.1, chapter 9, and its paths, chapter 8, drawn with a pen.
#pragma once

#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "scene/drawing/svg/pen.h"

namespace rakelight {

/// Is this the name of an element that `draw_svg_shape` draws?
bool is_svg_shape(std::string_view element_name);

/// Draws rect, circle, ellipse, line, polyline, polygon or path. \return what is wrong with its attributes as
/// "found X, expected Y"; empty when all is well, and for shapes that the standard says are not shown (a
/// width of 0).
std::string draw_svg_shape(const pugi::xml_node& element, std::string_view name, Pen& pen);

}  // namespace rakelight
