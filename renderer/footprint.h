// How far the normal turns over the footprint of an eye ray, as a covariance of slopes: so much rougher is an
// interface there that stands for its own curve. Source: Tokuyoshi and Kaplanyan 2019, "Improved Geometric
// Specular Antialiasing" (GGX alpha^2 + 2 x covariance, along its own axes); footprints that shrink as
// samples grow are those of progressive estimates (Knaus and Zwicker 2011: radius^2 as number^(alpha - 1)
// with alpha = 1/3), and with them whatever bounds them, so that what is rougher than it should be vanishes
// in the end. Which facets are hidden, and how much light passes to the base, is told by the interface as it
// is: eye rays meet the curve itself, and find its shadows.
#pragma once

#include <cmath>
#include <glm/glm.hpp>

#include "renderer/bvh.h"
#include "renderer/shading.h"
#include "scene/world/world.h"

namespace rakelight {

/// Standard deviation of the footprint of the first ray through a pixel, in pixels: that of the tent filter,
/// 1 / sqrt(6).
inline constexpr float kFirstFootprint_px = 0.408f;
/// The same where the eye sees an interface mirrored in another: what is added to the square of GGX alpha. A
/// lamp in a mirror in a mirror would else be met by one path in thousands (path space regularization,
/// Kaplanyan and Dachsbacher 2013).
inline constexpr float kFirstMirrorWidening = 0.04f;

/// Factor on the width of all footprints, and on kFirstMirrorWidening, for the ray with this number, counted
/// from 0.
inline float shrinking(std::uint32_t number) {
    return 1 / std::cbrt(1.0f + static_cast<float>(number));
}

/// A triangle's normals are told by itself alone: a footprint reaches no farther in barycentric coordinates
/// than they are spread in it.
inline constexpr float kMostOfTriangle = 0.29f;
/// The most that is added to the square of GGX alpha for the first ray; it shrinks as the root of footprints
/// does. The tail of a wider lobe would fall below the horizon and be lost: of an upright one the part
/// alpha^2 / (1 + alpha^2). And a rim narrower than a pixel would stay so wide after a thousand rays.
inline constexpr float kMostWidening = 0.06f;

namespace footprint_detail {

inline Vec3s cross(const Vec3s& a, const Vec3s& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

// Sides of the triangles hit, and how the normal turns along them, not of unit length.
struct Corners {
    Vec3s side_1, side_2, turn_1, turn_2;
    Floats length;  // of the interpolated normal before it is normalised
};

inline Corners corners_of(const World& world, const LaneArray<const Hit*>& hits) {
    const auto place = [&](int c) {
        return gather3([&](std::size_t k) -> const glm::vec3& {
            return world.positions_mm[world.triangles[hits[k]->triangle][c]];
        });
    };
    const auto normal = [&](std::size_t c) {
        return unpack_normals(
            gather_words([&](std::size_t k) { return world.packed_normals[hits[k]->triangle].normals[c]; }));
    };
    const Vec3s p = place(0), n = normal(0);
    Corners r{place(1) - p, place(2) - p, normal(1) - n, normal(2) - n, {}};
    const Floats u = gather([&](std::size_t k) { return hits[k]->u; });
    const Floats v = gather([&](std::size_t k) { return hits[k]->v; });
    const Vec3s here = n + r.turn_1 * u + r.turn_2 * v;
    r.length = sqrt(max(dot(here, here), broadcast(1e-12f)));
    return r;
}

// How the normal turns when a ray along `direction` is moved by `step` across it.
inline Vec3s turn(const Corners& c, const Vec3s& direction, const Vec3s& step) {
    const Vec3s up = cross(c.side_1, c.side_2);
    const Floats sink = dot(direction, up);
    const Floats steep =
        (sink < 0 ? -1.0f : 1.0f) * max(max(sink, -sink), 0.05f * sqrt(dot(up, up)) + 1e-20f);
    const Vec3s moved = step - direction * (dot(step, up) / steep);
    const Floats per = 1 / max(dot(up, up), broadcast(1e-20f));
    const Floats u = dot(cross(moved, c.side_2), up) * per, v = dot(cross(c.side_1, moved), up) * per;
    const Floats reach = sqrt(u * u + v * v);
    const Floats kept = min(kMostOfTriangle / max(reach, broadcast(1e-12f)), broadcast(1)) / c.length;
    return (c.turn_1 * u + c.turn_2 * v) * kept;
}

}  // namespace footprint_detail

/// The widening of eight interfaces over footprints that are `width_mm` wide (standard deviation, across the
/// ray) and shrink by `smaller`, 0 = there are none. The bases are turned so that x is the way in which it is
/// greatest, but where `own` holds, whose interfaces have axes of their own: they are left as they are.
inline Widening widening(const World& world, const LaneArray<const Hit*>& hits, const Vec3s& direction,
                         const Floats& width_mm, const Floats& smaller, const Ints& own, Bases& basis) {
    using namespace footprint_detail;
    const Corners corners = corners_of(world, hits);
    const Bases across(direction);
    const Floats step_mm = width_mm * smaller;
    const Vec3s a = basis.to_local(turn(corners, direction, across.x * step_mm));
    const Vec3s b = basis.to_local(turn(corners, direction, across.y * step_mm));
    const Floats xx = a.x * a.x + b.x * b.x, yy = a.y * a.y + b.y * b.y, xy = a.x * a.y + b.x * b.y;
    const Floats mean = 0.5f * (xx + yy), half = 0.5f * (xx - yy), spread = sqrt(half * half + xy * xy);
    // The eigenvector of the greater eigenvalue.
    Floats x = half >= 0 ? half + spread : xy, y = half >= 0 ? xy : spread - half;
    const Floats length2 = x * x + y * y;
    const Ints turned = (length2 > 1e-20f) & ~own;
    const Floats inverse = 1 / sqrt(max(length2, broadcast(1e-20f)));
    x = turned ? x * inverse : 1.0f;
    y = turned ? y * inverse : 0.0f;
    const Vec3s along = basis.x * x + basis.y * y;
    basis.y = basis.y * x - basis.x * y;
    basis.x = along;
    const auto kept = [&](const Floats& value) {
        return own ? Floats{} : min(2 * max(value, Floats{}), kMostWidening * sqrt(smaller));
    };
    return {kept(mean + spread), kept(mean - spread)};
}

}  // namespace rakelight
