// Areas of the panel as polygons with holes. All clipping and offsetting is Clipper's, on a lattice of a
// tenth of a micrometre (Vatti, "A generic solution to polygon clipping", CACM 35(7), 1992; Clipper 6.4).
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <vector>

namespace rakelight {

/// A closed chain of points in millimetres; the first point is not repeated.
using Ring = std::vector<glm::dvec2>;

/// Outlines run counter-clockwise, holes clockwise; no ring crosses another.
struct Region {
    std::vector<Ring> rings;
    bool empty() const { return rings.empty(); }
};

struct Box {
    glm::dvec2 low{1e300};
    glm::dvec2 high{-1e300};
    void add(const glm::dvec2& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    glm::dvec2 size() const { return high - low; }
};

enum class Corner { sharp, round };

/// The region enclosed by a ring of either direction.
Region region_of(const Ring& ring);
/// The region that several rings enclose together, of whatever direction: where a point is enclosed an odd
/// number of times, or else where windings do not cancel.
Region region_of(std::span<const Ring> rings, bool even_odd);
Region unite(const Region& a, const Region& b);
Region subtract(const Region& a, const Region& b);
Region intersect(const Region& a, const Region& b);
/// Grown by `by_mm` on all sides, shrunk when negative. Sharp corners keep their angle up to a spike of 3
/// offsets.
Region grow(const Region& region, double by_mm, Corner corner = Corner::sharp);
/// Each outline with the holes inside it.
std::vector<Region> islands(const Region& region);

bool contains(const Ring& ring, const glm::dvec2& p);
bool contains(const Region& region, const glm::dvec2& p);
/// Does any part of a chain lie within the region? A closed chain does not repeat its first point.
bool reaches(const Ring& chain, bool closed, const Region& region);
/// Signed: positive when counter-clockwise.
double area_mm2(const Ring& ring);
double area_mm2(const Region& region);
glm::dvec2 centroid(const Ring& ring);
Box bounds(const Ring& ring);
Box bounds(const Region& region);
/// Distance from a point to the nearest point of a segment.
double distance_mm(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b);
/// The smallest convex ring round some points, counter-clockwise (Andrew 1979, monotone chain).
Ring convex_hull(std::vector<glm::dvec2> points);
/// The part of a convex ring where dot(p, normal) <= limit (Sutherland, Hodgman 1974).
Ring cut_by_line(const Ring& ring, const glm::dvec2& normal, double limit);
/// A point from which the whole counter-clockwise ring can be seen: the centroid of its kernel, or none.
std::optional<glm::dvec2> star_centre(const Ring& ring);
/// Leaves out points that lie within `tolerance_mm` of the chord of their neighbours (Douglas, Peucker 1973).
Ring simplified(const Ring& ring, double tolerance_mm);

}  // namespace rakelight
