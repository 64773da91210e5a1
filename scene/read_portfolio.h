// The section `portfolio` of a layout file.
#pragma once

#include "scene/deliverable_section.h"
#include "scene/portfolio.h"

namespace rakelight {

/// Reads the section that belongs to `layout`. \throws LayoutError with all its problems.
Portfolio read_portfolio(const Layout& layout);

/// From an open section, problems recorded there.
Portfolio read_portfolio(Section& in, const Layout& layout);

}  // namespace rakelight
