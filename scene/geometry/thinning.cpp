#include "scene/geometry/thinning.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/geometry/polygon.h"

namespace rakelight {
namespace {

using glm::dvec2;

double angle_between(dvec2 from, dvec2 to) {
    return std::atan2(cross(from, to), glm::dot(from, to));
}

/// The directions from `from`, as angles to the first point that was far enough to have one.
class Cone {
  public:
    Cone(dvec2 from, double tolerance) : from_(from), tolerance_(tolerance) {}

    /// May the chord end at p? It may not turn back either: then the ends of the chord would miss what lies
    /// beyond.
    bool admits(dvec2 p) const {
        const dvec2 to = p - from_;
        const double distance = glm::length(to);
        if (distance < farthest_) return false;
        if (farthest_ <= tolerance_) return true;
        const double angle = angle_between(axis_, to);
        return angle >= low_ && angle <= high_;
    }

    /// Takes note of a point that the chord will pass.
    void pass(dvec2 p) {
        const dvec2 to = p - from_;
        const double distance = glm::length(to);
        if (distance > tolerance_) {
            const double half = std::asin(tolerance_ / distance);
            if (farthest_ <= tolerance_) axis_ = to;
            const double angle = angle_between(axis_, to);
            low_ = std::max(low_, angle - half);
            high_ = std::min(high_, angle + half);
        }
        farthest_ = std::max(farthest_, distance);
    }

  private:
    dvec2 from_;
    double tolerance_;
    dvec2 axis_{1, 0};
    double low_ = -std::numbers::pi, high_ = std::numbers::pi, farthest_ = 0;
};

}  // namespace

std::vector<dvec2> thinned(std::span<const dvec2> points, bool closed, double tolerance) {
    const std::size_t n = points.size();
    if (n < 3) return {points.begin(), points.end()};
    const std::size_t last = closed ? n : n - 1;
    const auto at = [&](std::size_t i) { return points[i % n]; };
    std::vector<dvec2> kept{points[0]};
    Cone cone(points[0], tolerance);
    for (std::size_t i = 1; i <= last; ++i) {
        if (i > 1 && !cone.admits(at(i))) {
            kept.push_back(at(i - 1));
            cone = Cone(at(i - 1), tolerance);
        }
        cone.pass(at(i));
    }
    if (!closed) kept.push_back(points[last]);
    if (closed && kept.size() < 3) return {points.begin(), points.end()};
    return kept;
}

}  // namespace rakelight
