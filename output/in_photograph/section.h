// The section `in photographs` of a layout file.
#pragma once

#include <vector>

#include "output/in_photograph/taken.h"

namespace rakelight {

struct Layout;

/// Opens every photograph that the layout names and finds out where each camera stood; the panel is hung as
/// the layout says. \throws LayoutError with all the problems of the section.
std::vector<TakenPhotograph> read_wall_photographs(const Layout& layout);

/// What the layout calls its photographs, in order; none is opened.
std::vector<std::string> wall_photograph_names(const Layout& layout);

}  // namespace rakelight
