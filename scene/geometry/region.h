// Areas of the panel as polygons with holes. All clipping and offsetting is Clipper's, on a lattice of a
// tenth of a micrometre (Vatti, "A generic solution to polygon clipping", CACM 35(7), 1992; Clipper 6.4).
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "scene/geometry/polygon.h"

namespace rakelight {

/// Outlines run counter-clockwise, holes clockwise; no ring crosses another.
struct Region {
    std::vector<Ring> rings;
    /// Whether it has no rings.
    bool empty() const { return rings.empty(); }
};

/// What an offset makes of corners: `round` ones are arcs, true to 0.02 mm.
enum class Corner { sharp, round };

/// The region enclosed by a ring of either direction.
Region region_of(const Ring& ring);
/// The region that several rings enclose together, of whatever direction: where a point is enclosed an odd
/// number of times, or else where windings do not cancel.
Region region_of(std::span<const Ring> rings, bool even_odd);
/// Union, difference and intersection of two sets; corners are rounded to the lattice.
Region unite(const Region& a, const Region& b);
Region subtract(const Region& a, const Region& b);
Region intersect(const Region& a, const Region& b);
/// Offset: grown by `by_mm` on all sides, shrunk when negative. What is too narrow goes, and may leave
/// nothing. Rings must be as Region says, see region_of. Sharp corners keep their angle up to a spike of 3
/// offsets.
Region grow(const Region& region, double by_mm, Corner corner = Corner::sharp);
/// Each outline with the holes inside it.
std::vector<Region> islands(const Region& region);

/// Whether the region holds `p`. But for rounding, of points on the boundary those with ground to their
/// right, or above them on a level edge, count as inside.
bool contains(const Region& region, const glm::dvec2& p);
/// Does any part of a chain lie within the region? A closed chain does not repeat its first point.
bool reaches(const Ring& chain, bool closed, const Region& region);
/// Area less that of the holes.
double area_mm2(const Region& region);
/// The least box that holds it; of an empty region, low above high.
Box bounds(const Region& region);

}  // namespace rakelight
