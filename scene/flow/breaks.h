// Breaks: lines that the artist draws where the andamento changes at one stroke. Directions are not blended
// across them, rows end at them, and a joint runs along them: square where rows meet the line at right
// angles, mitred where they meet it aslant.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/flow/flow.h"
#include "scene/geometry/region.h"

namespace rakelight {

/// Does the straight way from `p` to `q` meet one of the lines? Lines of one point or none are never met.
bool parted(const glm::dvec2& p, const glm::dvec2& q, std::span<const Row> breaks);

/// The links of a lattice that breaks cut. Bit k of node (x, y): the link to its neighbour at
/// (1, 0), (0, 1), (1, 1), (-1, 1) for k = 0..3. Empty when there are no breaks.
std::vector<std::uint8_t> cut_links(std::span<const Row> breaks, const Lattice& lattice);

/// The region slit open along the lines, by a few thousandths of a millimetre.
Region slit(const Region& region, std::span<const Row> breaks);

}  // namespace rakelight
