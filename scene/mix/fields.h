// The materials of all pieces of a panel, field by field, within what the workshop has.
#pragma once

#include <string>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// Sets `material` of every piece. `grounds` and `pieces`: one a field. Accents first, then even and
/// changing mixes, then pictures, which content themselves with the stock that is left, the earlier fields
/// first. \return notes for the artist.
/// \throws LayoutError when a stated number of accents does not fit, when more pieces of a material are
/// wanted than there are, and as mix_picture.
std::vector<std::string> mix_fields(const Layout& layout, const std::vector<Region>& grounds,
                                    std::vector<std::vector<Piece>>& pieces);

}  // namespace rakelight
