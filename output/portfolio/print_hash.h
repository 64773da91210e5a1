// One number for everything a print of the portfolio shows, so that a finished one is kept when only words
// about it have changed.
#pragma once

#include <cstdint>
#include <string_view>

#include "output/portfolio/shot_plan.h"

namespace rakelight {

struct Layout;

/// Of what the layout file says of the panel and its place, and of the files it was read with: as
/// source_hash, but the sections that commands read for themselves (deliverable_section.h), comments and
/// spacing do not count. \throws LayoutError, OutputError when one can no longer be read.
std::uint64_t panel_hash(const Layout& layout);

/// `panel`: of panel_hash, of this panel and any beside it. \return the scene hash of the print.
std::uint64_t print_hash(std::uint64_t panel, std::string_view version, const PlannedShot& plan,
                         const Portfolio& portfolio);

}  // namespace rakelight
