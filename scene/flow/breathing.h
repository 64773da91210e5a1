// How rows breathe: the width of the rows at every place, so chosen that as many of them as can run through.
// Rows draw apart where their normals n turn away from one another; a row width w that grows along them by
// the same measure takes that up, for then the rows are the level lines of one function: curl(n / w) = 0, or
// t . grad(log 1/w) = -curl n along the rows' direction t. The width is sought by least squares within what a
// mosaicist lets pieces vary, and only what is left over makes rows begin and end. The idea of a scale that
// takes the curl out of a field of stripes is that of Ray, Li, Levy, Sheffer, Alliez, "Periodic global
// parameterization", ACM TOG 25(4), 2006; the limits are common practice, no published source.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/lattice.h"

namespace rakelight {

/// Rows are up to so many times narrower or wider than asked: a fifth from row to row, and 15 % along one.
inline constexpr double kMostBreath = 1.2 * 1.15;

/// The logarithm of how many times closer rows stand than asked, at every node. `doubled`: unit vectors at
/// twice the angle of the rows. `counts`: nodes where there are rows, or empty for everywhere. `cut`: as of
/// cut_links, or empty: nothing is handed on across a break.
std::vector<double> breathing(const std::vector<glm::dvec2>& doubled, const Lattice& lattice,
                              const std::vector<std::uint8_t>& counts, const std::vector<std::uint8_t>& cut);

}  // namespace rakelight
