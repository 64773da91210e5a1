#include "scene/geometry/region.h"

#include <algorithm>
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

double cross(const glm::dvec2& a, const glm::dvec2& b) {
    return a.x * b.y - a.y * b.x;
}

void keep_far_points(const Ring& ring, std::size_t first, std::size_t last, double tolerance_mm,
                     std::vector<char>& keep) {
    const std::size_t n = ring.size();
    double far = tolerance_mm;
    std::size_t farthest = 0;
    for (std::size_t i = first + 1; i < last; ++i) {
        const double d = distance_mm(ring[i % n], ring[first % n], ring[last % n]);
        if (d > far) {
            far = d;
            farthest = i;
        }
    }
    if (!farthest) return;
    keep[farthest % n] = 1;
    keep_far_points(ring, first, farthest, tolerance_mm, keep);
    keep_far_points(ring, farthest, last, tolerance_mm, keep);
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

bool contains(const Ring& ring, const glm::dvec2& p) {
    bool inside = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const auto& a = ring[i];
        const auto& b = ring[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
}

bool contains(const Region& region, const glm::dvec2& p) {
    bool inside = false;
    for (const auto& ring : region.rings) inside ^= contains(ring, p);
    return inside;
}

double area_mm2(const Ring& ring) {
    double twice = 0;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
        twice += cross(ring[j] - ring[0], ring[i] - ring[0]);
    return twice / 2;
}

double area_mm2(const Region& region) {
    double sum = 0;
    for (const auto& ring : region.rings) sum += area_mm2(ring);
    return sum;
}

glm::dvec2 centroid(const Ring& ring) {
    glm::dvec2 moment{0};
    double twice = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const glm::dvec2 a = ring[i] - ring[0];
        const glm::dvec2 b = ring[i + 1] - ring[0];
        const double c = cross(a, b);
        twice += c;
        moment += c * (a + b);
    }
    if (std::abs(twice) < 1e-12) return ring.empty() ? glm::dvec2{0} : ring[0];
    return ring[0] + moment / (3 * twice);
}

Box bounds(const Ring& ring) {
    Box box;
    for (const auto& p : ring) box.add(p);
    return box;
}

Box bounds(const Region& region) {
    Box box;
    for (const auto& ring : region.rings)
        for (const auto& p : ring) box.add(p);
    return box;
}

double distance_mm(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b) {
    const glm::dvec2 side = b - a;
    const double length2 = glm::dot(side, side);
    const double t = length2 > 0 ? std::clamp(glm::dot(p - a, side) / length2, 0.0, 1.0) : 0.0;
    return glm::length(p - a - t * side);
}

Ring convex_hull(std::vector<glm::dvec2> points) {
    const auto before = [](const glm::dvec2& a, const glm::dvec2& b) {
        return a.x < b.x || (a.x == b.x && a.y < b.y);
    };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    Ring hull;
    const auto sweep = [&](auto first, auto last) {
        const std::size_t start = hull.size();
        for (auto it = first; it != last; ++it) {
            while (hull.size() >= start + 2 &&
                   cross(hull.back() - hull[hull.size() - 2], *it - hull.back()) <= 0)
                hull.pop_back();
            hull.push_back(*it);
        }
        hull.pop_back();
    };
    sweep(points.begin(), points.end());
    sweep(points.rbegin(), points.rend());
    return hull;
}

Ring cut_by_line(const Ring& ring, const glm::dvec2& normal, double limit) {
    Ring out;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const glm::dvec2& a = ring[i];
        const glm::dvec2& b = ring[(i + 1) % ring.size()];
        const double da = glm::dot(a, normal) - limit;
        const double db = glm::dot(b, normal) - limit;
        if (da <= 0) out.push_back(a);
        if ((da < 0 && db > 0) || (da > 0 && db < 0)) out.push_back(glm::mix(a, b, da / (da - db)));
    }
    return out;
}

std::optional<glm::dvec2> star_centre(const Ring& ring) {
    const glm::dvec2 heart = centroid(ring);
    const auto sees_all = [&](const glm::dvec2& p) {
        for (std::size_t i = 0; i < ring.size(); ++i)
            if (cross(ring[i] - p, ring[(i + 1) % ring.size()] - p) <= 0) return false;
        return true;
    };
    if (sees_all(heart)) return heart;
    const Box box = bounds(ring);  // the kernel is where all edges, prolonged, leave room
    Ring kernel{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const glm::dvec2 side = ring[(i + 1) % ring.size()] - ring[i];
        const glm::dvec2 out(side.y, -side.x);
        kernel = cut_by_line(kernel, out, glm::dot(ring[i], out));
    }
    if (kernel.size() < 3 || area_mm2(kernel) < 1e-6) return std::nullopt;
    const glm::dvec2 centre = centroid(kernel);
    if (!sees_all(centre)) return std::nullopt;
    return centre;
}

Ring simplified(const Ring& ring, double tolerance_mm) {
    const std::size_t n = ring.size();
    if (n < 4) return ring;
    // Start from two points that surely stay: the one farthest from the centroid, and the one farthest from
    // that.
    const auto farthest_from = [&](const glm::dvec2& c) {
        std::size_t best = 0;
        for (std::size_t i = 1; i < n; ++i)
            if (glm::distance(ring[i], c) > glm::distance(ring[best], c)) best = i;
        return best;
    };
    const std::size_t a = farthest_from(centroid(ring));
    const std::size_t b = farthest_from(ring[a]);
    std::vector<char> keep(n, 0);
    keep[a] = keep[b] = 1;
    keep_far_points(ring, std::min(a, b), std::max(a, b), tolerance_mm, keep);
    keep_far_points(ring, std::max(a, b), std::min(a, b) + n, tolerance_mm, keep);
    Ring out;
    for (std::size_t i = 0; i < n; ++i)
        if (keep[i]) out.push_back(ring[i]);
    return out;
}

}  // namespace rakelight
