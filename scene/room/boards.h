// A floor of boards: straight rows along the room, ends staggered, as a floor layer lays them. Lengths and
// the stagger are common practice, no published source.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "scene/geometry/mesh.h"

namespace rakelight {

/// Narrow joints between boards, mm: beside, and at their ends.
inline constexpr double kBoardGap_mm = 1.5, kBoardEndGap_mm = 0.8;
/// Shortest board and the least distance between the ends of two rows side by side, mm, where the room is
/// long enough.
inline constexpr double kShortestBoard_mm = 500, kLeastStagger_mm = 250;

/// A board with half of the joints round it.
struct FloorBoard {
    glm::dvec2 low_mm{};  ///< across the rows, along them
    glm::dvec2 high_mm{};
    int row = 0;
};

/// Rows of boards of one width over `across_mm` by `along_mm`, the two outermost cut alike where the width
/// does not go evenly. The same seed lays the same floor. Precondition: sizes above 0.
std::vector<FloorBoard> lay_boards(double across_mm, double along_mm, double board_mm, std::uint64_t seed);

/// The board itself without its joints, its top at height 0, `thick_mm` deep; x across, z along the rows.
Mesh board_mesh(const FloorBoard& board, double thick_mm);

}  // namespace rakelight
