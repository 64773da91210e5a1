// Symmetry of a photometric distribution: what the first and last angles of its file say of it, and the whole
// distribution unfolded from the part that is written.
#pragma once

#include <string>
#include <vector>

#include "scene/light/intensity_grid.h"

namespace rakelight {

/// As written: all verticals for the first horizontal angle, then for the next.
struct Measured {
    std::vector<double> vertical_deg;
    std::vector<double> horizontal_deg;
    std::vector<float> candela;
};

/// "found X, expected Y" where the angles fit no symmetry of the type ('A', 'B' or 'C'), or empty. Angles
/// rise and there is at least one.
std::string why_not_vertical(const Measured& m, char type);
std::string why_not_horizontal(const Measured& m, char type);

/// The grid all round. Type C keeps its pole at the nadir; the poles of A stand upright, those of B lie left
/// and right as seen along the beam. Angles are good.
IntensityGrid unfold(const Measured& m, char type);

}  // namespace rakelight
