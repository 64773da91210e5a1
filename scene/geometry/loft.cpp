#include "scene/geometry/loft.h"

#include <cmath>
#include <numbers>

#include "scene/geometry/ring_mesh.h"

namespace rakelight {

namespace {

double curve(double a, double b, double c, double d, double t) {
    return 0.5 *
           (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t * t * t);
}

LoftSection between(std::span<const LoftSection> s, std::size_t i, double t) {
    const LoftSection &a = s[i > 0 ? i - 1 : 0], &b = s[i], &c = s[i + 1],
                      &d = s[std::min(i + 2, s.size() - 1)];
    const auto at = [&](auto part) { return curve(part(a), part(b), part(c), part(d), t); };
    LoftSection r;
    r.height_mm = b.height_mm + t * (c.height_mm - b.height_mm);
    for (int axis = 0; axis < 2; ++axis) {
        r.centre_mm[axis] = at([&](const LoftSection& l) { return l.centre_mm[axis]; });
        r.half_mm[axis] = std::max(0.05, at([&](const LoftSection& l) { return l.half_mm[axis]; }));
    }
    r.squareness = b.squareness + t * (c.squareness - b.squareness);
    return r;
}

void add_ring(RingMesh& rings, const LoftSection& s, int around) {
    for (int i = 0; i < around; ++i) {
        // Runs so that, with y up, strips face outward.
        const double turn = -2 * std::numbers::pi * i / around;
        const double x = std::cos(turn), z = std::sin(turn), power = 2 / s.squareness;
        const auto bent = [&](double v) { return std::copysign(std::pow(std::abs(v), power), v); };
        rings.add({s.centre_mm.x + s.half_mm.x * bent(x), s.height_mm, s.centre_mm.y + s.half_mm.y * bent(z)},
                  {0, 1, 0});
    }
}

}  // namespace

Mesh loft_mesh(std::span<const LoftSection> sections, int around, int steps) {
    RingMesh rings;
    const auto round = static_cast<std::uint32_t>(around);
    for (std::size_t i = 0; i + 1 < sections.size(); ++i)
        for (int k = 0; k < steps; ++k) add_ring(rings, between(sections, i, double(k) / steps), around);
    add_ring(rings, sections.back(), around);
    const std::uint32_t all = rings.next() / round;
    for (std::uint32_t ring = 0; ring + 1 < all; ++ring) rings.strip(ring * round, (ring + 1) * round, round);
    const auto cap = [&](const LoftSection& s, std::uint32_t ring, bool up) {
        rings.add({s.centre_mm.x, s.height_mm, s.centre_mm.y}, {0, up ? 1 : -1, 0});
        rings.fan(ring * round, rings.next() - 1, round, up);
    };
    cap(sections.front(), 0, false);
    cap(sections.back(), all - 1, true);
    smooth_normals(rings.mesh);
    return std::move(rings.mesh);
}

Mesh slab_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm, double ease_mm) {
    constexpr int kRoundSteps = 3;
    const glm::dvec3 middle = (low_mm + high_mm) / 2.0, half = (high_mm - low_mm) / 2.0;
    std::vector<LoftSection> sections;
    const auto section = [&](double height_mm, double inset_mm) {
        sections.push_back({height_mm, {middle.x, middle.z}, {half.x - inset_mm, half.z - inset_mm}, 40});
    };
    for (const bool top : {false, true})
        for (int i = 0; i <= kRoundSteps; ++i) {
            const double turn = std::numbers::pi / 2 * (top ? i : kRoundSteps - i) / kRoundSteps;
            const double rise = ease_mm * std::sin(turn), inset = ease_mm * (1 - std::cos(turn));
            section(top ? high_mm.y - ease_mm + rise : low_mm.y + ease_mm - rise, inset);
        }
    return loft_mesh(sections, 96, 1);
}

void append(Mesh& mesh, const Mesh& part) {
    const auto first = static_cast<std::uint32_t>(mesh.positions_mm.size());
    mesh.positions_mm.insert(mesh.positions_mm.end(), part.positions_mm.begin(), part.positions_mm.end());
    mesh.normals.insert(mesh.normals.end(), part.normals.begin(), part.normals.end());
    for (const auto& t : part.triangles) mesh.triangles.push_back(t + first);
}

}  // namespace rakelight
