// The section `portfolio` of a layout file.
#pragma once

#include "output/portfolio/portfolio.h"
#include "scene/reading/deliverable_section.h"

namespace rakelight {

struct Layout;

/// Reads the section that belongs to `layout`. \throws LayoutError with all its problems.
Portfolio read_portfolio(const Layout& layout);

/// From an open section, problems recorded there.
Portfolio read_portfolio(Section& in, const Layout& layout);

}  // namespace rakelight
