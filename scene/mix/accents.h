// Accents: a stated number of stray pieces in a field, each material and all together spread well apart and
// kept off its edge.
#pragma once

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

struct ChosenAccent {
    std::size_t piece = 0;
    std::size_t accent = 0;  ///< index in Field::accents
};

/// Which pieces become accents: exactly `Accent::count` of each. A place counts by how far it lies from the
/// nearest accent of its own material, from the nearest of all, and from the ground's edge, each against what
/// an even spread would give. One after the other is the best of a handful drawn by chance (best-candidate
/// sampling: Mitchell, "Spectrally optimal sampling for distribution ray tracing", SIGGRAPH 1991); then those
/// that lie too near are moved to the farthest place there is (Schloemer, Heck and Deussen, "Farthest-point
/// optimized point sets with maximized minimum distance", HPG 2011). Does not depend on how the pieces are
/// numbered. Fewer when there are fewer pieces.
std::vector<ChosenAccent> choose_accents(const Field& field, const Region& ground, std::uint64_t seed,
                                         std::span<const Piece> pieces);

}  // namespace rakelight
