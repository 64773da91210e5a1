// Simplification of a chain of points in one pass: those it does not need are left out. From each point kept,
// every point passed narrows the cone of directions within which a chord stays near it (Williams, "An
// efficient algorithm for the piecewise linear approximation of planar curves", Computer Graphics and Image
// Processing 8, 1978; Sklansky and Gonzalez, "Fast polygonal approximation of digitized curves", Pattern
// Recognition 12, 1980).
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace rakelight {

/// A part of the points, first and last of an open chain among them, such that every point left out lies
/// within `tolerance` of the chain that remains. A closed chain does not repeat its first point and keeps at
/// least three if it has them. Time grows with the number of points.
std::vector<glm::dvec2> thinned(std::span<const glm::dvec2> points, bool closed, double tolerance);

}  // namespace rakelight
