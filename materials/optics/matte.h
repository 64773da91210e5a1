// The rough diffuse BRDF of Oren and Nayar, in a form that keeps its energy: matte material such as stone,
// slag, pumice and cement. Sources: Oren and Nayar, SIGGRAPH 1994 (slopes and their shadowing, the
// "qualitative" model); Portsmouth, Kutz, Hill 2025, J. Comput. Graph. Tech. 14(1) (energy-preserving form,
// after Fujii's variant; their fit of the albedo).
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>
#include <type_traits>

#include "materials/maths/lanes.h"

namespace rakelight {

/// Shape of a matte surface; reflectance is kept apart, per band. Real: float, or Floats for eight at once.
template <class Real>
struct BasicMatte {
    Real shape = Real{};            ///< Oren-Nayar B/A: 0 Lambert; 0.44 at 30 degrees
    Real plain = Real{} + 1;        ///< single-scatter value at normal incidence
    Real mean_albedo = Real{} + 1;  ///< of single scattering with white facets, over the hemisphere
    friend bool operator==(const BasicMatte&, const BasicMatte&) requires std::is_floating_point_v<Real>
    = default;
};
using Matte = BasicMatte<float>;

/// `slope_deg`: standard deviation of the slopes, degrees, 0..90.
inline Matte make_matte(float slope_deg) {
    const double s = slope_deg * (std::numbers::pi / 180), s2 = s * s;
    const double shape = 0.45 * s2 / (s2 + 0.09) / (1 - 0.5 * s2 / (s2 + 0.33));
    const double plain = 1 / (1 + (0.5 - 2 / (3 * std::numbers::pi)) * shape);
    return {static_cast<float>(shape), static_cast<float>(plain),
            static_cast<float>(plain * (1 + (2. / 3 - 28 / (15 * std::numbers::pi)) * shape))};
}

/// Single scattering: BRDF * pi / reflectance.
template <class Real, class Vec3>
inline Real matte_single(const BasicMatte<Real>& m, const Vec3& out, const Vec3& in) {
    const Real s = out.x * in.x + out.y * in.y;
    return m.plain * (1 + m.shape * (s > 0 ? s / max(out.z, in.z) : s));
}

/// Directional albedo of single scattering with white facets; `z` is the cosine, 0..1.
template <class Real>
inline Real matte_albedo(const BasicMatte<Real>& m, const Real& z) {
    const Real q = 1 - z;
    return m.plain *
           (1 + m.shape * q * (0.0571085289f + q * (0.491881867f + q * (-0.332181442f + q * 0.0714429953f))));
}

/// Light scattered among the facets: BRDF * pi over matte_interreflection(reflectance).
template <class Real>
inline Real matte_multiple(const BasicMatte<Real>& m, const Real& z_out, const Real& z_in) {
    const Real left = 1 - m.mean_albedo;
    const Real lost = max(1 - matte_albedo(m, z_out), Real{}) * max(1 - matte_albedo(m, z_in), Real{});
    return left > 1e-6f ? lost / left : Real{};
}

/// Reflectance of the light that met more than one facet, from that of one facet, 0..1.
inline float matte_interreflection(const Matte& m, float reflectance) {
    return reflectance * reflectance * m.mean_albedo / (1 - reflectance * (1 - m.mean_albedo));
}

}  // namespace rakelight
