// A spectrum by seven values, 400 to 700 nm every 50 nm: enough to author the smooth curves of the built-in
// stock.
#pragma once

#include <array>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

using ShortCurve = std::array<float, 7>;

/// Linear between the seven values.
constexpr SampledSpectrum bands_from_short(const ShortCurve& curve) {
    SampledSpectrum r;
    for (int b = 0; b < kBandCount; ++b) {
        const int offset_nm = kBandStep_nm * b;
        const int i = offset_nm / 50 < 5 ? offset_nm / 50 : 5;
        const float t = static_cast<float>(offset_nm - 50 * i) / 50;
        const float low = curve[static_cast<std::size_t>(i)];
        r[b] = low + t * (curve[static_cast<std::size_t>(i) + 1] - low);
    }
    return r;
}

}  // namespace rakelight
