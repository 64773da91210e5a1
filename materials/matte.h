// Matte stuff (stone, slag, pumice, cement): Oren and Nayar's rough diffuse surface in a form that keeps its
// energy. Sources: Oren and Nayar, SIGGRAPH 1994 (slopes and their shadowing, the "qualitative" model);
// Portsmouth, Kutz, Hill 2025, J. Comput. Graph. Tech. 14(1) (energy-preserving form, after Fujii's variant;
// their fit of the albedo).
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>

namespace rakelight {

/// Shape of a matte surface; reflectance is kept apart, per band.
struct Matte {
    float shape = 0;        ///< Oren-Nayar B/A: 0 Lambert; 0.44 at 30 degrees
    float plain = 1;        ///< single-scatter value at normal incidence
    float mean_albedo = 1;  ///< of single scattering with white facets, over the hemisphere
};

/// `slope_deg`: standard deviation of the slopes, degrees, 0..90.
inline Matte make_matte(float slope_deg) {
    const double s = slope_deg * 0.017453292519943295, s2 = s * s;
    const double shape = 0.45 * s2 / (s2 + 0.09) / (1 - 0.5 * s2 / (s2 + 0.33));
    constexpr double kPi = 3.14159265358979323846;
    const double plain = 1 / (1 + (0.5 - 2 / (3 * kPi)) * shape);
    return {static_cast<float>(shape), static_cast<float>(plain),
            static_cast<float>(plain * (1 + (2. / 3 - 28 / (15 * kPi)) * shape))};
}

/// Single scattering: BRDF * pi / reflectance.
inline float matte_single(const Matte& m, const glm::vec3& out, const glm::vec3& in) {
    const float s = out.x * in.x + out.y * in.y;
    return m.plain * (1 + m.shape * (s > 0 ? s / std::max(out.z, in.z) : s));
}

/// Directional albedo of single scattering with white facets; `z` is the cosine, 0..1.
inline float matte_albedo(const Matte& m, float z) {
    const float q = 1 - z;
    return m.plain *
           (1 + m.shape * q * (0.0571085289f + q * (0.491881867f + q * (-0.332181442f + q * 0.0714429953f))));
}

/// Light scattered among the facets: BRDF * pi over matte_interreflection(reflectance).
inline float matte_multiple(const Matte& m, float z_out, float z_in) {
    const float left = 1 - m.mean_albedo;
    if (!(left > 1e-6f)) return 0;
    return std::max(0.f, 1 - matte_albedo(m, z_out)) * std::max(0.f, 1 - matte_albedo(m, z_in)) / left;
}

/// Reflectance of the light that met more than one facet, from that of one facet, 0..1.
inline float matte_interreflection(const Matte& m, float reflectance) {
    return reflectance * reflectance * m.mean_albedo / (1 - reflectance * (1 - m.mean_albedo));
}

}  // namespace rakelight
