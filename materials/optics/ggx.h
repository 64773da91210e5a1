// The rough interface: GGX distribution of facets, the same every way or drawn out along x, with
// height-correlated masking and visible-normal sampling. Sources: Walter, Marschner, Li, Torrance 2007
// (distribution); Heitz 2014, J. Comput. Graph. Tech. 3(2) (masking); Heitz 2018, J. Comput. Graph. Tech.
// 7(4) (visible normals); Dupuy and Benyoub 2023 (sampling them by spherical caps). Directions are unit,
// point away from the surface, z is the interface's normal; alpha > 0.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/maths/circle.h"
#include "materials/maths/lanes.h"

namespace rakelight {

/// How steeply the facets of an interface lie: GGX alpha, and how the two ways over the interface differ from
/// it. Along x (the grain of brushed metal, the bedding of riven slate) the slopes are `alpha * along`,
/// across it `alpha * across`, with along * across = 1.
template <class Real>
struct BasicSlopes {
    Real alpha;
    Real along;
    Real across;
};
using Slopes = BasicSlopes<float>;

/// `stretch`: slopes across the grain over slopes along it, 1 = the same every way.
inline Slopes slopes_of(float alpha, float stretch = 1) {
    const float across = std::sqrt(stretch);
    return {alpha, 1 / across, across};
}

/// What is added to the squares of GGX alpha along x and along y of eight interfaces whose facets lie the
/// same every way.
struct Widening {
    Floats along{}, across{};
};

/// Slopes after that; those that are hardly wider stay as they are.
inline void widen(BasicSlopes<Floats>& slopes, const Widening& by) {
    constexpr float kLeast = 4e-6f;
    const Ints wider = max(by.along, by.across) > kLeast;
    if (!any(wider)) return;
    const Floats alpha2 = slopes.alpha * slopes.alpha;
    const Floats x = sqrt(max(alpha2 + by.along, broadcast(kLeast))),
                 y = sqrt(max(alpha2 + by.across, broadcast(kLeast)));
    slopes.alpha = wider ? sqrt(x * y) : slopes.alpha;
    slopes.along = wider ? sqrt(x / y) : slopes.along;
    slopes.across = wider ? sqrt(y / x) : slopes.across;
}

/// x^2.
template <class Real>
inline Real square(Real x) {
    return x * x;
}

/// Density of facet normals per steradian; `half`: the facet normal of any length, z > 0.
template <class Vec3, class Real>
inline Real ggx_density(const Vec3& half, const BasicSlopes<Real>& s) {
    const Real a2 = s.alpha * s.alpha, up2 = half.z * half.z;
    const Real facet2 = square(half.x * s.across) + square(half.y * s.along);
    // exact where the normal is nearly z
    const Real q = (half.x * half.x + half.y * half.y + up2) / (facet2 + a2 * up2);
    return a2 * std::numbers::inv_pi_v<float> * q * q;
}

/// sqrt(z^2 + (slopes in the way of v)^2): what the masking of one direction comes from, Smith G1 = 2 z / (z
/// + this).
template <class Vec3, class Real>
inline Real ggx_reach(const Vec3& v, const BasicSlopes<Real>& s) {
    return sqrt(v.z * v.z + s.alpha * s.alpha * (square(v.x * s.along) + square(v.y * s.across)));
}

/// Height-correlated G2 / (4 z_out z_in).
template <class Real>
inline Real ggx_visibility(Real z_out, Real reach_out, Real z_in, Real reach_in) {
    return 0.5f / (z_out * reach_in + z_in * reach_out);
}

/// Share of what visible facets mirror towards `in` that no other facet is in the way of: G2 / G1(out),
/// height-correlated.
template <class Real>
inline Real ggx_leaving(Real z_out, Real reach_out, Real z_in, Real reach_in) {
    return z_in * (z_out + reach_out) / (z_out * reach_in + z_in * reach_out);
}

/// Normal of a facet visible from `out`; `u` in [0, 1)^2.
inline glm::vec3 ggx_visible_normal(const glm::vec3& out, const Slopes& s, const glm::vec2& u) {
    const float ax = s.alpha * s.along, ay = s.alpha * s.across;
    const glm::vec3 o = glm::normalize(glm::vec3(ax * out.x, ay * out.y, out.z));
    const float z = (1 - u.y) * (1 + o.z) - o.z;
    const float radius = std::sqrt(std::max(0.f, 1 - z * z));
    const glm::vec3 h = glm::vec3(radius * circle_point(u.x), z) + o;
    return glm::normalize(glm::vec3(ax * h.x, ay * h.y, std::max(h.z, 1e-7f)));
}

/// The same for eight directions, from two numbers each.
inline Vec3s ggx_visible_normal(const Vec3s& out, const BasicSlopes<Floats>& s, const Floats& u,
                                const Floats& v) {
    const Floats ax = s.alpha * s.along, ay = s.alpha * s.across;
    const Vec3s o = normalised({ax * out.x, ay * out.y, out.z});
    const Floats z = (1 - v) * (1 + o.z) - o.z;
    const Floats radius = sqrt(max(1 - z * z, Floats{}));
    const CirclePoint<Floats> p = point_on_circle(u);
    return normalised({ax * (radius * p.x + o.x), ay * (radius * p.y + o.y), max(z + o.z, broadcast(1e-7f))});
}

/// Density per steradian of the direction that is `out` mirrored in a visible normal, from ggx_density of it.
template <class Real>
inline Real ggx_reflection_pdf(Real z_out, Real reach_out, Real density) {
    return density / (2 * (z_out + reach_out));
}

}  // namespace rakelight
