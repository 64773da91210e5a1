#include "materials/photograph/colour_range.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/colour/ciede2000.h"
#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/maths/hash.h"

namespace rakelight {

namespace {

constexpr int kCurves = 400;

Lab lab_under(const TristimulusWeights& light, const SampledSpectrum& reflectance) {
    const auto seen = integrate(light, reflectance), white = integrate(light, SampledSpectrum(1));
    return xyz_to_lab({seen[0], seen[1], seen[2]}, {white[0], white[1], white[2]});
}

/// Of standard deviation 1, by Box and Muller.
std::array<double, kBandCount> normal_numbers(Rng& rng) {
    std::array<double, kBandCount> n{};
    for (std::size_t i = 0; i < n.size(); i += 2) {
        const double radius = std::sqrt(-2 * std::log(1 - rng.unit()));
        const double turn = 2 * std::numbers::pi * rng.unit();
        n[i] = radius * std::cos(turn);
        n[i + 1] = radius * std::sin(turn);
    }
    return n;
}

}  // namespace

std::vector<ColourRange> colour_ranges(const ReflectanceEstimate& estimate) {
    std::vector<SampledSpectrum> curves;
    Rng rng(hash_text("possible curves"));
    for (int i = 0; i < kCurves; ++i) curves.push_back(possible_curve(estimate, normal_numbers(rng)));
    std::vector<ColourRange> ranges;
    for (const char* name : {"D65", "A", "LED-B3"}) {
        const TristimulusWeights light = tristimulus_weights(*find_illuminant(name));
        const Lab taken = lab_under(light, estimate.reflectance);
        std::vector<double> off;
        for (const SampledSpectrum& curve : curves) off.push_back(ciede2000(taken, lab_under(light, curve)));
        std::sort(off.begin(), off.end());
        ranges.push_back({name, off[kCurves / 2], off[kCurves * 9 / 10]});
    }
    return ranges;
}

}  // namespace rakelight
