#include "scene/opus/cutting.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"

namespace rakelight {

namespace {

constexpr double kReachesOut = 0.22;  // of the joint: how far a corner may leave its drawn-in cell

Ring largest(const Region& region) {
    Ring best;
    double most = 0;
    for (const auto& ring : region.rings)
        if (const double a = area_mm2(ring); a > most) {
            most = a;
            best = ring;
        }
    return best;
}

// The part of the plane to the left of the line through `at` along `along`, as a large square.
Region left_of(const glm::dvec2& at, const glm::dvec2& along, double reach) {
    const glm::dvec2 u = reach * glm::normalize(along);
    const glm::dvec2 v(-u.y, u.x);
    return region_of({at - u, at + u, at + u + v, at - u + v});
}

// Draws the ends of a short edge together: to where its neighbours would meet if that is close by, else to
// its middle, moved towards that meeting as far as the joint allows.
glm::dvec2 drawn_together(const Ring& ring, std::size_t i, double allowed_mm) {
    const std::size_t n = ring.size();
    const glm::dvec2& a = ring[i];
    const glm::dvec2& b = ring[(i + 1) % n];
    const glm::dvec2 before = a - ring[(i + n - 1) % n];
    const glm::dvec2 after = b - ring[(i + 2) % n];
    const glm::dvec2 middle = (a + b) / 2.0;
    const double sine = cross(before, after);
    if (sine >= -1e-9) return middle;  // the neighbours open outwards and never meet
    const glm::dvec2 r = b - a;
    const glm::dvec2 meeting = a + before * (cross(r, after) / sine);
    const double far = glm::distance(meeting, middle);
    return far > allowed_mm ? middle + (meeting - middle) * (allowed_mm / far) : meeting;
}

// The ring less the corner whose cutting off costs the least ground.
Ring without_least_corner(Ring ring) {
    const std::size_t n = ring.size();
    std::size_t least = 0;
    double loss = 1e300;
    for (std::size_t i = 0; i < n; ++i) {
        const double corner = area_mm2(Ring{ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]});
        if (corner > 0 && corner < loss) loss = corner, least = i;
    }
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(least));
    return ring;
}

// Removes edges too short to cut, shortest first, and the flattest corners while there are too many.
void drop_short_edges(Ring& ring, const CuttingRules& rules) {
    while (ring.size() > 3) {
        const std::size_t n = ring.size();
        std::size_t shortest = 0;
        std::size_t flattest = 0;
        for (std::size_t i = 1; i < n; ++i) {
            if (glm::distance(ring[i], ring[(i + 1) % n]) <
                glm::distance(ring[shortest], ring[(shortest + 1) % n]))
                shortest = i;
            if (std::abs(interior_angle_deg(ring, i) - 180) <
                std::abs(interior_angle_deg(ring, flattest) - 180))
                flattest = i;
        }
        if (const double bend = interior_angle_deg(ring, flattest) - 180; bend > -5 && bend <= 3) {
            ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(flattest));
        } else if (glm::distance(ring[shortest], ring[(shortest + 1) % n]) <
                   rules.least_edge_mm * (n > rules.most_corners ? rules.crowded_edge : 1.0)) {
            Ring drawn = ring;
            drawn[shortest] = drawn_together(ring, shortest, kReachesOut * rules.joint_mm);
            drawn.erase(drawn.begin() + static_cast<std::ptrdiff_t>((shortest + 1) % n));
            // Of a crowded piece a corner may be cheaper to give up than an edge.
            Ring clipped = n > rules.most_corners ? without_least_corner(ring) : Ring{};
            ring = area_mm2(clipped) > area_mm2(drawn) ? std::move(clipped) : std::move(drawn);
        } else {
            return;
        }
    }
}

// Nips the tips of corners that are too sharp, so far that the new edge can be held.
void nip_sharp_corners(Ring& ring, const CuttingRules& rules) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const double angle = interior_angle_deg(ring, i);
        if (angle >= rules.least_angle_deg) continue;
        const std::size_t n = ring.size();
        const glm::dvec2 to_last = ring[(i + n - 1) % n] - ring[i];
        const glm::dvec2 to_next = ring[(i + 1) % n] - ring[i];
        const double cut = std::min({1.05 * rules.least_edge_mm / (2 * std::sin(glm::radians(angle) / 2)),
                                     0.6 * glm::length(to_last), 0.6 * glm::length(to_next)});
        const glm::dvec2 tip = ring[i];
        ring[i] = tip + cut * glm::normalize(to_last);
        ring.insert(ring.begin() + static_cast<std::ptrdiff_t>(i) + 1, tip + cut * glm::normalize(to_next));
        ++i;
    }
}

// Breaks a piece along the longer of the two lines at its deepest hollow corner.
std::vector<Ring> broken_at_hollows(Ring ring, const CuttingRules& rules, int depth) {
    const std::size_t n = ring.size();
    std::size_t hollow = n;
    double deepest = 200;
    for (std::size_t i = 0; i < n; ++i)
        if (const double a = interior_angle_deg(ring, i); a > deepest) {
            deepest = a;
            hollow = i;
        }
    const double solidity = area_mm2(ring) / area_mm2(convex_hull(ring));
    const bool whole_seen = star_centre(ring).has_value();
    if (depth == 0 && !whole_seen) return {};
    if (hollow == n || depth == 0 || (solidity > 0.92 && whole_seen)) return {ring};
    const glm::dvec2 at = ring[hollow];
    const double reach = 4 * perimeter_mm(ring);
    std::vector<Ring> best;
    double most = -1;
    for (const glm::dvec2 along : {at - ring[(hollow + n - 1) % n], ring[(hollow + 1) % n] - at}) {
        if (glm::length(along) < 1e-6) continue;
        const glm::dvec2 right = rules.joint_mm * glm::normalize(glm::dvec2(along.y, -along.x));
        const Region whole{{ring}};
        const Ring left_part = largest(intersect(whole, left_of(at, along, reach)));
        const Ring right_part = largest(intersect(whole, left_of(at + right, -along, reach)));
        const double larger = std::max(area_mm2(left_part), area_mm2(right_part));
        if (larger > most) {
            most = larger;
            best = {left_part, right_part};
        }
    }
    std::vector<Ring> out;
    for (auto& part : best)
        if (part.size() > 2)
            for (auto& piece : broken_at_hollows(std::move(part), rules, depth - 1))
                out.push_back(std::move(piece));
    return out;
}

}  // namespace

double interior_angle_deg(const Ring& ring, std::size_t i) {
    const std::size_t n = ring.size();
    const glm::dvec2 a = ring[(i + n - 1) % n] - ring[i];
    const glm::dvec2 b = ring[(i + 1) % n] - ring[i];
    const double turn = std::atan2(cross(b, a), glm::dot(a, b));
    return glm::degrees(turn < 0 ? turn + 2 * std::numbers::pi : turn);
}

std::vector<Ring> cut_cell(const Ring& cell, const CuttingRules& rules, std::uint64_t seed) {
    if (cell.size() < 3) return {};
    const double tolerance = std::clamp(0.2 * rules.joint_mm, 0.02, 0.4);
    const Ring straight = simplified(cell, tolerance);
    if (straight.size() < 3) return {};
    const Ring inner = simplified(largest(grow({{straight}}, -kDrawnIn * rules.joint_mm)), tolerance);
    if (inner.size() < 3) return {};
    std::vector<Ring> pieces;
    Rng rng(seed);
    for (Ring& part : broken_at_hollows(inner, rules, 3)) {
        Ring ring = part;
        drop_short_edges(ring, rules);
        nip_sharp_corners(ring, rules);
        // At a hollow, straightening can reach out: no farther than the joint allows.
        if (area_mm2(part) < 0.998 * area_mm2(convex_hull(part)))
            ring = simplified(largest(intersect({{ring}}, grow({{part}}, kReachesOut * rules.joint_mm))),
                              tolerance);
        nip_sharp_corners(ring, rules);
        if (ring.size() < 3) continue;
        const double area = area_mm2(ring);
        if (!star_centre(ring) || 4 * area / perimeter_mm(ring) < rules.least_width_mm ||
            area < 0.12 * rules.nominal_mm2)
            continue;
        const glm::dvec2 heart = centroid(ring);
        Ring nudged = ring;
        for (auto& p : nudged) {
            const double nudge = std::min(0.3, 4 * rules.hand * rng.unit()) * rules.joint_mm;
            const double reach = glm::distance(p, heart);
            p += (heart - p) * std::min(nudge / reach, 0.2);
        }
        pieces.push_back(star_centre(nudged) ? std::move(nudged) : std::move(ring));
    }
    return pieces;
}

}  // namespace rakelight
