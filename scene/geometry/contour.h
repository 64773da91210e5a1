// Contour lines on a lattice, by marching squares (Lorensen, Cline 1987, in the plane).
#pragma once

#include <array>
#include <functional>
#include <glm/glm.hpp>
#include <optional>
#include <vector>

namespace rakelight {

/// A line on which a value is zero.
struct Contour {
    std::vector<glm::dvec2> line_mm;
    bool closed = false;
};

/// At the corners of one square, counter-clockwise from the lower left: x is the value, y tells where it
/// counts.
using ContourSquare = std::array<glm::vec2, 4>;

/// The lines on which the value is zero, of those places where y > 0. `columns`, `rows`: of nodes. `square`:
/// of the square whose lower left node is (x, y), or none where no line may pass; it is asked square by
/// square, so that neighbours may see one node with another sign. `place`: of a node. Crossings are named by
/// the lattice edge they lie on, so that segments of neighbouring squares link exactly. Open lines come
/// first, in the order of nodes. A square that is crossed otherwise than twice has no line.
std::vector<Contour> zero_contours(int columns, int rows,
                                   const std::function<std::optional<ContourSquare>(int x, int y)>& square,
                                   const std::function<glm::dvec2(int x, int y)>& place);

}  // namespace rakelight
