// Luminous intensity distribution: candela in every direction, as a goniophotometer reads it: on half circles
// round a pole. The convention inside: a lamp's own frame has x along the C 0 plane, y along C 90 and z along
// its axis, the nadir of a lamp that hangs (C planes of CIE 121 and of ANSI/IES LM-63, counted
// counter-clockwise as seen from above, from memory). A grid may have its pole elsewhere: `across` tells how
// the lamp's frame lies in it.
#pragma once

#include <glm/glm.hpp>
#include <vector>

namespace rakelight {

struct IntensityGrid {
    std::vector<float> round_deg;  ///< about the pole, ascending; a single one: the same all round
    std::vector<float> polar_deg;  ///< from the pole, ascending within 0..180
    std::vector<float> candela;    ///< [round * polar_deg.size() + polar]
    glm::mat3 across{1};           ///< from the lamp's frame to that of the grid (pole = z)

    /// Candela towards a unit direction of the lamp's frame, bilinear in the two angles; 0 outside the grid.
    float at(const glm::vec3& direction) const;

    /// Unit direction, in the lamp's frame, of a node or of any pair of angles.
    glm::vec3 direction(float round_deg, float polar_deg) const;
};

/// Luminous flux of the grid as interpolated, lm: exact in the polar angle, where candela runs linearly
/// between nodes and the solid angle as its sine, and trapezoidal round the pole.
double lumens(const IntensityGrid& grid);

/// The greatest candela of all nodes; the grid has at least one.
float greatest_candela(const IntensityGrid& grid);

}  // namespace rakelight
