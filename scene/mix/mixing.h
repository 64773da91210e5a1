// Which piece is of which material: the shares of the mix, exact to a piece, strewn as a hand strews them,
// without the clumps of pure chance.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

/// How many of `count` pieces each share gets: within one of `share * count`, summing to `count` (largest
/// remainders).
std::vector<std::size_t> shared_counts(std::span<const double> shares, std::size_t count);

/// Sets `material` of every piece of a field with an even mix.
void mix_materials(const Field& field, std::uint64_t seed, std::span<Piece> pieces);

}  // namespace rakelight
