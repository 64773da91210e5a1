#include "scene/opus/star_parts.h"

#include <algorithm>
#include <cmath>

#include "scene/opus/cutting.h"

namespace rakelight {

namespace {

constexpr int kDeepest = 14;              // slits one after another
constexpr std::size_t kMostHollows = 48;  // corners tried for a slit
constexpr std::size_t kMostTried = 24;    // slits looked at closely
constexpr double kTolerance_mm = 0.02;

struct Slit {
    glm::dvec2 a;
    glm::dvec2 b;
    double cost;
};

glm::dvec2 nearest_on(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b) {
    const glm::dvec2 side = b - a;
    const double length2 = glm::dot(side, side);
    return length2 > 0 ? a + std::clamp(glm::dot(p - a, side) / length2, 0.0, 1.0) * side : a;
}

// The slit as ground, a little longer than the line so that it cuts through.
Region slit_ground(const Slit& slit, double joint_mm) {
    const glm::dvec2 along = glm::normalize(slit.b - slit.a);
    const glm::dvec2 side = half_joint_mm(joint_mm) * glm::dvec2(-along.y, along.x);
    const glm::dvec2 more = (kThrough * joint_mm + 0.01) * along;
    return region_of(
        {slit.a - more - side, slit.b + more - side, slit.b + more + side, slit.a - more + side});
}

bool runs_within(const Region& region, const Slit& slit) {
    for (const double t : {0.02, 0.25, 0.5, 0.75, 0.98})
        if (!contains(region, glm::mix(slit.a, slit.b, t))) return false;
    for (const auto& ring : region.rings)
        for (const auto& [p, q] : edges(ring)) {
            const glm::dvec2 a = glm::mix(slit.a, slit.b, 1e-3), b = glm::mix(slit.b, slit.a, 1e-3);
            if (cross(b - a, p - a) * cross(b - a, q - a) < 0 &&
                cross(q - p, a - p) * cross(q - p, b - p) < 0)
                return false;
        }
    return true;
}

// The shortest bridge from the first hole to any other ring.
Slit bridge(const Region& region) {
    Slit best{{0, 0}, {0, 0}, 1e300};
    const Ring& hole = region.rings[1];
    for (std::size_t r = 0; r < region.rings.size(); ++r) {
        if (r == 1) continue;
        const Ring& ring = region.rings[r];
        for (std::size_t i = 0; i < hole.size(); ++i)
            for (std::size_t j = 0; j < ring.size(); ++j) {
                const glm::dvec2 q = nearest_on(hole[i], ring[j], ring[(j + 1) % ring.size()]);
                const glm::dvec2 p = nearest_on(ring[j], hole[i], hole[(i + 1) % hole.size()]);
                if (const double d = glm::distance(hole[i], q); d < best.cost) best = {hole[i], q, d};
                if (const double d = glm::distance(p, ring[j]); d < best.cost) best = {p, ring[j], d};
            }
    }
    return best;
}

// Slits across a simple ring, from its hollows to the outline opposite, best first.
std::vector<Slit> neck_slits(const Ring& ring) {
    const std::size_t n = ring.size();
    std::vector<double> at{0};
    for (std::size_t i = 0; i < n; ++i) at.push_back(at.back() + glm::distance(ring[i], ring[(i + 1) % n]));
    const double around = at.back();
    std::vector<std::pair<double, std::size_t>> hollows;  // deepest first
    for (std::size_t i = 0; i < n; ++i)
        if (const double a = interior_angle_deg(ring, i); a > 180.5) hollows.emplace_back(-a, i);
    if (hollows.size() > kMostHollows) {  // a curve: take corners evenly along it, and the deepest
        std::vector<std::pair<double, std::size_t>> some;
        for (std::size_t k = 0; k < kMostHollows; ++k)
            some.push_back(hollows[k * hollows.size() / kMostHollows]);
        some.push_back(*std::min_element(hollows.begin(), hollows.end()));
        hollows = std::move(some);
    }
    std::vector<Slit> slits;
    for (const auto& [depth, i] : hollows) {
        const auto weigh = [&, i = i](const glm::dvec2& q, std::size_t side, double hang) {
            const double way = std::abs(at[side] + glm::distance(ring[side], q) - at[i]);
            const double cut_off = std::min(way, around - way);
            const double length = glm::distance(ring[i], q);
            if (cut_off > 1e-6 && length > 1e-3) slits.push_back({ring[i], q, hang * length / cut_off});
        };
        const glm::dvec2 before = ring[i] - ring[(i + n - 1) % n], after = ring[i] - ring[(i + 1) % n];
        for (std::size_t j = 0; j < n; ++j) {
            if (j == i || j == (i + n - 1) % n) continue;
            const glm::dvec2 &a = ring[j], &b = ring[(j + 1) % n];
            weigh(nearest_on(ring[i], a, b), j, 1.0);
            // A cut that carries on one of the edges at the hollow looks drawn: it counts as shorter.
            for (const glm::dvec2& along : {before, after}) {
                const double rate = cross(along, b - a);
                if (std::abs(rate) < 1e-12) continue;
                const double t = cross(a - ring[i], b - a) / rate, u = cross(a - ring[i], along) / rate;
                if (t > 1e-9 && u >= 0 && u <= 1) weigh(ring[i] + t * along, j, 0.8);
            }
        }
    }
    std::sort(slits.begin(), slits.end(), [](const Slit& a, const Slit& b) { return a.cost < b.cost; });
    return slits;
}

void part(const Region& island, double joint_mm, double least_width_mm, int depth, std::vector<Ring>& out) {
    const auto carry_on = [&](const Slit& slit) {
        for (const auto& next : islands(subtract(island, slit_ground(slit, joint_mm))))
            part(next, joint_mm, least_width_mm, depth - 1, out);
    };
    if (island.rings.size() > 1) {
        if (depth > 0) carry_on(bridge(island));
        return;
    }
    const Ring ring = simplified(island.rings[0], kTolerance_mm);
    if (ring.size() < 3 || 4 * area_mm2(ring) / perimeter_mm(ring) < least_width_mm) return;
    if (star_centre(ring)) {
        out.push_back(ring);
        return;
    }
    if (depth == 0) return;
    std::size_t tried = 0;
    const Slit* best = nullptr;
    double least = 1e300;
    const auto slits = neck_slits(ring);
    for (const auto& slit : slits) {
        if (!runs_within({{ring}}, slit)) continue;
        // Every part that is still hollow costs another cut; a splinter is no part.
        const auto parts = islands(subtract({{ring}}, slit_ground(slit, joint_mm)));
        double cost = slit.cost;
        if (parts.size() < 2) cost += 10;
        for (const auto& p : parts) {
            if (4 * area_mm2(p.rings[0]) / perimeter_mm(p.rings[0]) < 2 * least_width_mm) cost += 0.5;
            if (!star_centre(simplified(p.rings[0], kTolerance_mm))) cost += 0.3;
        }
        if (cost < least) {
            least = cost;
            best = &slit;
        }
        if (++tried == kMostTried) break;
    }
    if (best) carry_on(*best);
}

}  // namespace

std::vector<Ring> star_parts(const Region& region, double joint_mm, double least_width_mm) {
    std::vector<Ring> out;
    const int more = static_cast<int>(region.rings.size());
    for (const auto& island : islands(region))
        part(island, joint_mm, least_width_mm, kDeepest + 2 * more, out);
    return out;
}

}  // namespace rakelight
