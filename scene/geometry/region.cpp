#include "scene/geometry/region.h"

#include <clipper.hpp>
#include <cmath>

namespace rakelight {

namespace {

constexpr double kPerMm = 1e4;

ClipperLib::Path to_path(const Ring& ring) {
    ClipperLib::Path path;
    path.reserve(ring.size());
    for (const auto& p : ring) path.emplace_back(std::llround(p.x * kPerMm), std::llround(p.y * kPerMm));
    return path;
}

ClipperLib::Paths to_paths(const Region& region) {
    ClipperLib::Paths paths;
    for (const auto& ring : region.rings) paths.push_back(to_path(ring));
    return paths;
}

Ring to_ring(const ClipperLib::Path& path) {
    Ring ring;
    ring.reserve(path.size());
    for (const auto& p : path)
        ring.emplace_back(static_cast<double>(p.X) / kPerMm, static_cast<double>(p.Y) / kPerMm);
    return ring;
}

Region to_region(const ClipperLib::Paths& paths) {
    Region region;
    for (const auto& path : paths)
        if (path.size() > 2) region.rings.push_back(to_ring(path));
    return region;
}

Region combine(ClipperLib::ClipType how, const Region& a, const Region& b) {
    ClipperLib::Clipper clipper;
    clipper.AddPaths(to_paths(a), ClipperLib::ptSubject, true);
    clipper.AddPaths(to_paths(b), ClipperLib::ptClip, true);
    ClipperLib::Paths out;
    clipper.Execute(how, out, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    return to_region(out);
}

void collect(const ClipperLib::PolyNode& node, std::vector<Region>& out) {
    for (const auto* outer : node.Childs) {
        Region island{{to_ring(outer->Contour)}};
        for (const auto* hole : outer->Childs) {
            island.rings.push_back(to_ring(hole->Contour));
            collect(*hole, out);
        }
        out.push_back(std::move(island));
    }
}

}  // namespace

Region region_of(const Ring& ring) {
    ClipperLib::Paths out;
    ClipperLib::SimplifyPolygon(to_path(ring), out, ClipperLib::pftNonZero);
    return to_region(out);
}

Region region_of(std::span<const Ring> rings, bool even_odd) {
    ClipperLib::Paths paths, out;
    for (const auto& ring : rings) paths.push_back(to_path(ring));
    ClipperLib::SimplifyPolygons(paths, out, even_odd ? ClipperLib::pftEvenOdd : ClipperLib::pftNonZero);
    return to_region(out);
}

bool reaches(const Ring& chain, bool closed, const Region& region) {
    ClipperLib::Path path = to_path(chain);
    if (closed) path.push_back(path.front());
    ClipperLib::Clipper clipper;
    clipper.AddPath(path, ClipperLib::ptSubject, false);
    clipper.AddPaths(to_paths(region), ClipperLib::ptClip, true);
    ClipperLib::PolyTree within;
    clipper.Execute(ClipperLib::ctIntersection, within, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    return within.Total() > 0;
}

Region unite(const Region& a, const Region& b) {
    return combine(ClipperLib::ctUnion, a, b);
}
Region subtract(const Region& a, const Region& b) {
    return combine(ClipperLib::ctDifference, a, b);
}
Region intersect(const Region& a, const Region& b) {
    return combine(ClipperLib::ctIntersection, a, b);
}

Region grow(const Region& region, double by_mm, Corner corner) {
    ClipperLib::ClipperOffset offset(3.0, 0.02 * kPerMm);
    offset.AddPaths(to_paths(region), corner == Corner::sharp ? ClipperLib::jtMiter : ClipperLib::jtRound,
                    ClipperLib::etClosedPolygon);
    ClipperLib::Paths out;
    offset.Execute(out, by_mm * kPerMm);
    return to_region(out);
}

std::vector<Region> islands(const Region& region) {
    ClipperLib::Clipper clipper;
    clipper.AddPaths(to_paths(region), ClipperLib::ptSubject, true);
    ClipperLib::PolyTree tree;
    clipper.Execute(ClipperLib::ctUnion, tree, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    std::vector<Region> out;
    collect(tree, out);
    return out;
}

bool contains(const Region& region, const glm::dvec2& p) {
    bool inside = false;
    for (const auto& ring : region.rings) inside ^= contains(ring, p);
    return inside;
}

double area_mm2(const Region& region) {
    double sum = 0;
    for (const auto& ring : region.rings) sum += area_mm2(ring);
    return sum;
}

Box bounds(const Region& region) {
    Box box;
    for (const auto& ring : region.rings)
        for (const auto& p : ring) box.add(p);
    return box;
}

}  // namespace rakelight
