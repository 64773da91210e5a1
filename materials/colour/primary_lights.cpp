#include "materials/colour/primary_lights.h"

#include <algorithm>

#include "materials/colour/illuminants.h"
#include "materials/colour/observer.h"

namespace rakelight {

namespace {

// Shares of D65 that are the light of each primary at 380, 385 .. 780 nm; blue is what red and green leave.
// Solved for once as the quadratic programme of the header; the test holds them to its constraints.
// clang-format off
constexpr Spectrum kRed{{
    0.0249156, 0.0249133, 0.0249073, 0.0248937, 0.0248637, 0.0247969, 0.0246693, 0.0244279, 0.023994,
    0.0232627, 0.0221904, 0.0208978, 0.0197231, 0.0193119, 0.0206032, 0.0249143, 0.0295814, 0.0239438,
    0.0129647, 0.00282967, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.0355707, 0.11176,
    0.217938, 0.343125, 0.476168, 0.607262, 0.72785, 0.830973, 0.911462, 0.966221, 0.995235, 1, 1, 1, 1, 1,
    1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}};
constexpr Spectrum kGreen{{
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.00836108, 0.0499518, 0.118368, 0.204833, 0.300635,
    0.402719, 0.507582, 0.611181, 0.709822, 0.799869, 0.877523, 0.938967, 0.980698, 1, 1, 1, 1, 1, 1, 1,
    0.996626, 0.975988, 0.923406, 0.839689, 0.733485, 0.613708, 0.489332, 0.368218, 0.257279, 0.162107,
    0.0868067, 0.0337791, 0.0047651, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
    0, 0, 0, 0, 0, 0, 0, 0, 0}};
// clang-format on

double luminous(const Spectrum& light) {
    double sum = 0;
    for (int i = 0; i < kSpectrumCount; ++i) sum += light[i] * kObserver1931.y_bar[i];
    return sum;
}

std::array<Spectrum, 3> make_lights() {
    const Spectrum white = *find_illuminant("D65");
    const double all = luminous(white);
    std::array<Spectrum, 3> lights;
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double power = white[i] / all;
        lights[0][i] = power * kRed[i];
        lights[1][i] = power * kGreen[i];
        lights[2][i] = power * std::max(0.0, 1 - kRed[i] - kGreen[i]);
    }
    return lights;
}

}  // namespace

const std::array<Spectrum, 3>& primary_lights() {
    static const std::array<Spectrum, 3> lights = make_lights();
    return lights;
}

Spectrum light_of_rgb(const std::array<double, 3>& rgb) {
    Spectrum light;
    for (std::size_t c = 0; c < 3; ++c)
        for (int i = 0; i < kSpectrumCount; ++i) light[i] += rgb[c] * primary_lights()[c][i];
    return light;
}

PrimaryWeights primary_weights() {
    PrimaryWeights all;
    for (std::size_t c = 0; c < 3; ++c) {
        const Spectrum& light = primary_lights()[c];
        all.of[c] = tristimulus_weights(light);
        all.luminance[c] = static_cast<float>(luminous(light));
        for (SampledSpectrum* bands : {&all.of[c].x, &all.of[c].y, &all.of[c].z}) *bands *= all.luminance[c];
    }
    return all;
}

}  // namespace rakelight
