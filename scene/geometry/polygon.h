// Polygons of the plane: closed rings of points, their edges and measures. What clips and offsets them is in
// region.h.
#pragma once

#include <cstddef>
#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <vector>

namespace rakelight {

/// A closed chain of points in millimetres; the first point is not repeated.
using Ring = std::vector<glm::dvec2>;

/// A box along the axes; empty until a point is added.
struct Box {
    glm::dvec2 low{1e300};
    glm::dvec2 high{-1e300};
    /// Grows the box to hold `p`.
    void add(const glm::dvec2& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    /// Negative when nothing was added.
    glm::dvec2 size() const { return high - low; }
};

/// A straight side, from `a` to `b`.
struct Edge {
    glm::dvec2 a{0};
    glm::dvec2 b{0};
};

/// The edges of a ring in order, the last one back to the first point: `for (const auto& [a, b] :
/// edges(ring))`. The ring must outlive the range.
class Edges {
  public:
    explicit Edges(std::span<const glm::dvec2> ring) : ring_(ring) {}

    class Iterator {
      public:
        Iterator(std::span<const glm::dvec2> ring, std::size_t i) : ring_(ring), i_(i) {}
        Edge operator*() const { return {ring_[i_], ring_[i_ + 1 < ring_.size() ? i_ + 1 : 0]}; }
        Iterator& operator++() {
            ++i_;
            return *this;
        }
        bool operator!=(const Iterator& other) const { return i_ != other.i_; }

      private:
        std::span<const glm::dvec2> ring_;
        std::size_t i_;
    };
    Iterator begin() const { return {ring_, 0}; }
    Iterator end() const { return {ring_, ring_.size()}; }

  private:
    std::span<const glm::dvec2> ring_;
};

/// All edges of a ring.
inline Edges edges(std::span<const glm::dvec2> ring) {
    return Edges(ring);
}

/// The third component of the vector product: twice the area of the triangle that `a` and `b` span, positive
/// when `b` lies to the left of `a`.
constexpr double cross(const glm::dvec2& a, const glm::dvec2& b) {
    return a.x * b.y - a.y * b.x;
}

/// Signed: positive when counter-clockwise. Reckoned from the first point on, so that a small ring far from
/// the origin keeps its digits.
double area_mm2(std::span<const glm::dvec2> ring);
/// Length of all edges.
double perimeter_mm(std::span<const glm::dvec2> ring);
/// Mean distance from the middle to the edge: twice the area over the perimeter; of a square half
/// its side. Negative when clockwise.
double mean_half_width_mm(std::span<const glm::dvec2> ring);
/// Distance to the farthest point.
double farthest_mm(std::span<const glm::dvec2> ring, const glm::dvec2& from);
/// Of the area; the first point where there is none.
glm::dvec2 centroid(const Ring& ring);
/// The least box that holds all points; of none, low above high.
Box bounds(const Ring& ring);
/// Whether a ring of either direction holds `p`: an odd number of edges lie to its right. But for rounding,
/// of points on the boundary those with the inside to their right, or above them on a level edge, count as
/// inside.
bool contains(const Ring& ring, const glm::dvec2& p);
/// Distance from a point to the nearest point of a segment.
double distance_mm(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b);
/// The smallest convex ring round some points, counter-clockwise (Andrew 1979, monotone chain).
Ring convex_hull(std::vector<glm::dvec2> points);
/// The part of a convex ring where dot(p, normal) <= limit, the line included; empty when there is none
/// (Sutherland, Hodgman 1974).
Ring cut_by_line(const Ring& ring, const glm::dvec2& normal, double limit);
/// A point from which the whole counter-clockwise ring can be seen: the centroid of its kernel, or none.
std::optional<glm::dvec2> star_centre(const Ring& ring);
/// Leaves out points that lie within `tolerance_mm` of the chord of their neighbours (Douglas, Peucker 1973).
Ring simplified(const Ring& ring, double tolerance_mm);

}  // namespace rakelight
