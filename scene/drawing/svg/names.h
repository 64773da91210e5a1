// How things in an SVG file are called. The standard knows `id`, which must be unique and may hold no space;
// editors therefore write the name that the artist gave as an attribute of their own, or encode it in the id.
#pragma once

#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "scene/model/drawing.h"

namespace rakelight {

/// The name within an id: `_xHH_` becomes the character of that number (the escape of ISO/IEC 9075-14, with
/// two to six digits), then a counter `_N_` at the end, which made the id unique, is left off.
std::string plain_name(std::string_view id);

/// The id, and as label the first of: an attribute called label, id or name in a vocabulary of the editor's
/// own, `data-name`, the plain name of the id.
DrawnName svg_name_of(const pugi::xml_node& element);

/// The value of href, in whatever vocabulary; empty when there is none.
std::string_view svg_href_of(const pugi::xml_node& element);

}  // namespace rakelight
