// A mix that changes from place to place: between two stations the shades are strewn into one another, in
// shares that follow the place and without bands or clumps.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

/// Shades at stations as a table: which share each material has at each.
struct ShadeTable {
    std::vector<std::uint32_t> materials;     ///< indices in `Layout::stock`, none twice
    std::vector<double> at;                   ///< increasing
    std::vector<std::vector<double>> shares;  ///< [station][material], each row sums to 1
    double blend = 1;
};

/// `low` and `high`: first and last position of the field, taken when the shift has no stations of its own;
/// an `away` shift then starts at 0.
ShadeTable shade_table(const MixShift& shift, double low, double high);

/// Shares at a position, written into `shares`: those of the nearest end beyond the stations; between two
/// stations linear over the middle `blend` of the way.
void shares_at(const ShadeTable& table, double position, std::span<double> shares);

/// Sets `material` of every piece by `field.shift`, which must be given. Same pieces in another order
/// get the same materials.
void mix_shades(const Field& field, std::uint64_t seed, std::span<Piece> pieces);

}  // namespace rakelight
