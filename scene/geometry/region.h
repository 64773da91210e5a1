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
    bool empty() const { return rings.empty(); }
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

bool contains(const Region& region, const glm::dvec2& p);
/// Does any part of a chain lie within the region? A closed chain does not repeat its first point.
bool reaches(const Ring& chain, bool closed, const Region& region);
double area_mm2(const Region& region);
Box bounds(const Region& region);

}  // namespace rakelight
