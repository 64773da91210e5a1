// The sections `take-off`, `zones` and `hanging` of a layout file.
#pragma once

#include <string>
#include <string_view>

#include "output/take_off/reckoning/workshop.h"
#include "scene/model/field.h"

namespace rakelight {

struct Layout;

/// Reads all three from what `layout` was read from, or what is usual where the file says nothing.
/// \throws LayoutError with all the problems of all three.
WorkshopWishes read_workshop(const Layout& layout);

/// Grout zones of a layout by name, in the order of its fields; fields with open joints have none.
std::vector<std::string> zone_names(const std::vector<Field>& fields);

/// A4, A3 or Letter. Null for another word.
const PaperSize* paper_size(std::string_view name);

}  // namespace rakelight
