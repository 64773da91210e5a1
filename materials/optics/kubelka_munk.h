// Kubelka-Munk layers under diffuse light in closed form, and the interface over them both ways.
// Sources: Kubelka 1948, J. Opt. Soc. Am. 38, 448 (finite layers); Saunderson 1942, J. Opt. Soc. Am. 32, 727.
#pragma once

#include <algorithm>
#include <cmath>

namespace rakelight {

/// Reflectance of an endless layer; `k_over_s` >= 0, infinity allowed.
inline double endless_reflectance(double k_over_s) {
    return 1 /
           (1 + k_over_s + std::sqrt(k_over_s * (k_over_s + 2)));  // the smaller root, without cancellation
}

/// K/S of an endless layer of this reflectance; infinite for 0.
inline double k_over_s(double reflectance) {
    return (1 - reflectance) * (1 - reflectance) / (2 * reflectance);
}

/// A finite layer under diffuse light, between media of its own index.
struct DiffuseLayer {
    double reflectance = 0;  ///< over black
    double transmittance = 1;
};

/// `k_per_mm`, `s_per_mm`: Kubelka-Munk coefficients, >= 0, either or both zero; `thickness_mm` >= 0, finite.
inline DiffuseLayer diffuse_layer(double k_per_mm, double s_per_mm, double thickness_mm) {
    // With p = sqrt(K (K + 2 S)) and t = tanh(p X) / p, Kubelka's R0 = 1 / (a + b coth bSX) is S t / (1 +
    // (K+S) t).
    const double p = std::sqrt(k_per_mm * (k_per_mm + 2 * s_per_mm));
    const double px = p * thickness_mm;
    const double t = px > 1e-6 ? std::tanh(px) / p : thickness_mm * (1 - px * px / 3);
    const double down = 1 + (k_per_mm + s_per_mm) * t;
    return {s_per_mm * t / down, 1 / (std::cosh(std::min(px, 700.0)) * down)};
}

/// The layer over a backing of diffuse reflectance `backing`, 0..1.
inline double over_backing(const DiffuseLayer& layer, double backing) {
    const double lost = 1 - layer.reflectance * backing;
    const double t2 = layer.transmittance * layer.transmittance;
    return layer.reflectance + (lost > 0 ? t2 * backing / lost : 0);
}

/// Reflectance seen through an interface, first-surface light excluded, of a base of reflectance `inner`
/// inside. `k1`: reflectance of the interface from outside; `k2`: diffuse reflectance of the interface from
/// inside.
inline double through_interface(double inner, double k1, double k2) {
    return (1 - k1) * (1 - k2) * inner / (1 - k2 * inner);
}

/// The inverse: reflectance inside, from the one seen (first-surface light excluded).
inline double inside_interface(double seen, double k1, double k2) {
    return seen / ((1 - k1) * (1 - k2) + k2 * seen);
}

}  // namespace rakelight
