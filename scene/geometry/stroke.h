// A stroke of the layout as a chain of short straight segments.
// Smooth strokes are centripetal Catmull-Rom curves: they pass through every point and make no cusp or loop
// within a segment (Yuksel, Schaefer, Keyser, "Parameterization and applications of Catmull-Rom curves",
// Computer-Aided Design 43(7), 2011). Each segment is turned into a Bezier cubic and split evenly by Wang's
// bound on the distance between a cubic and its chords (Wang 1984, as in Goldman, "Pyramid Algorithms",
// 2003).
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// A line or an outline on the panel. `smooth`: a curve through the points, not straight segments.
struct Stroke {
    std::vector<glm::dvec2> points_mm;
    bool smooth = false;
    bool closed = false;
    Place place;
};

/// Points of the stroke in panel millimetres, in the order drawn, no two neighbours equal; a closed stroke
/// does not repeat its first point. No curve strays more than `tolerance_mm` (> 0) from the chain, except
/// that a segment is never split into more than 1024 parts. Fewer than two distinct points give what there
/// is.
std::vector<glm::dvec2> flatten(const Stroke& stroke, double tolerance_mm);

/// A place where the closed chain meets itself other than at the joint of two neighbours, or none. Neighbours
/// that fold back over each other count. Sorts and sweeps along x: near n log n for drawn outlines, n^2 at
/// worst.
std::optional<glm::dvec2> self_crossing_mm(std::span<const glm::dvec2> closed_mm);

}  // namespace rakelight
