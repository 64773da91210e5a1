// The rough face: GGX distribution of facets with height-correlated masking and visible-normal sampling.
// Sources: Walter, Marschner, Li, Torrance 2007 (distribution); Heitz 2014, J. Comput. Graph. Tech. 3(2)
// (masking); Heitz 2018, J. Comput. Graph. Tech. 7(4) (visible normals); Dupuy and Benyoub 2023 (sampling
// them by spherical caps). Directions are unit, point away from the surface, z is the face's normal; alpha >
// 0.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>

#include "materials/circle.h"

namespace rakelight {

/// Density of facet normals per steradian; `half`: the facet normal of any length, z > 0.
template <class Vec3, class Real>
inline Real ggx_density(const Vec3& half, Real alpha) {
    const Real a2 = alpha * alpha, flat2 = half.x * half.x + half.y * half.y, up2 = half.z * half.z;
    const Real q = (flat2 + up2) / (flat2 + a2 * up2);  // exact where the normal is nearly z
    return a2 * 0.318309886f * q * q;
}

/// z + sqrt(alpha^2 (1 - z^2) + z^2): the masking of one direction, Smith G1 = 2 z / this.
template <class Real>
inline Real ggx_masking_sum(Real z, Real alpha) {
    const Real a2 = alpha * alpha;
    return z + root(a2 + (1 - a2) * z * z);
}

/// Height-correlated G2 / (4 z_out z_in).
template <class Real>
inline Real ggx_visibility(Real z_out, Real z_in, Real alpha) {
    const Real a2 = alpha * alpha;
    return 0.5f / (z_out * root(a2 + (1 - a2) * z_in * z_in) + z_in * root(a2 + (1 - a2) * z_out * z_out));
}

/// Normal of a facet visible from `out`; `u` in [0, 1)^2.
inline glm::vec3 ggx_visible_normal(const glm::vec3& out, float alpha, const glm::vec2& u) {
    const glm::vec3 o = glm::normalize(glm::vec3(alpha * out.x, alpha * out.y, out.z));
    const float z = (1 - u.y) * (1 + o.z) - o.z;
    const float radius = std::sqrt(std::max(0.f, 1 - z * z));
    const glm::vec3 h = glm::vec3(radius * circle_point(u.x), z) + o;
    return glm::normalize(glm::vec3(alpha * h.x, alpha * h.y, std::max(h.z, 1e-7f)));
}

inline Vec3s ggx_visible_normal(const Vec3s& out, const Floats& alpha, const Floats& u, const Floats& v) {
    const Vec3s o = normalised({alpha * out.x, alpha * out.y, out.z});
    const Floats z = (1 - v) * (1 + o.z) - o.z;
    const Floats radius = root(greater(1 - z * z, Floats{}));
    const CirclePoint<Floats> p = point_on_circle(u);
    return normalised(
        {alpha * (radius * p.x + o.x), alpha * (radius * p.y + o.y), greater(z + o.z, everywhere(1e-7f))});
}

/// Density per steradian of the direction that is `out` mirrored in a visible normal, from ggx_density of it.
template <class Real>
inline Real ggx_reflection_pdf(Real z_out, Real density, Real alpha) {
    return density / (2 * ggx_masking_sum(z_out, alpha));
}

}  // namespace rakelight
