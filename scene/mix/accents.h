// Accents: a stated number of stray pieces in a field, spread well apart and kept off its edge.
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

/// Which pieces become accents: exactly `Accent::count` of each, one after the other the best of a handful
/// drawn by chance, best being farthest from those chosen and from the ground's edge (best-candidate
/// sampling: Mitchell, "Spectrally optimal sampling for distribution ray tracing", SIGGRAPH 1991). Does not
/// depend on how the pieces are numbered. Fewer when there are fewer pieces.
std::vector<ChosenAccent> choose_accents(const Field& field, const Region& ground, std::uint64_t seed,
                                         std::span<const Piece> pieces);

}  // namespace rakelight
