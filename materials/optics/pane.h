// Transmittance of clear window glass by angle. A pile of m plates passes, in each polarisation,
// (1 - R) / (1 + (2 m - 1) R), all inner reflections counted (G. G. Stokes, Proc. R. Soc. 11, 545 (1862)), R
// being Fresnel's reflectance of one interface.
#pragma once

#include <algorithm>
#include <cmath>

namespace rakelight {

/// Soda-lime float glass.
inline constexpr float kPaneIndex = 1.52f;

/// Transmittance of `panes` clear plates of `index` for unpolarised light, 0..1. `cos_in`: 0..1.
inline float plates_transmittance(float cos_in, float index, int panes) {
    const float c = std::clamp(cos_in, 0.0f, 1.0f);
    const float t = std::sqrt(index * index - 1 + c * c);  // index * cosine of the refracted ray
    const float n2c = index * index * c;
    const float rs = (c - t) * (c - t) / ((c + t) * (c + t));
    const float rp = (n2c - t) * (n2c - t) / ((n2c + t) * (n2c + t));
    const float k = static_cast<float>(2 * panes - 1);
    return 0.5f * ((1 - rs) / (1 + k * rs) + (1 - rp) / (1 + k * rp));
}

/// What double glazing lets through at an angle, over what it lets through straight.
inline float glazing_share(float cos_in) {
    static const float straight = plates_transmittance(1, kPaneIndex, 2);
    return plates_transmittance(cos_in, kPaneIndex, 2) / straight;
}

}  // namespace rakelight
