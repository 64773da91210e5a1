// Samples of known reflectance before a simulated camera: do their colours come back, also under lamps that
// were not there? Limits are our own: a CIEDE2000 of one
// is just noticeable.
#include "materials/photograph/reflectance_estimate.h"

#include <gtest/gtest.h>

#include "materials/photograph/chart_fit.h"
#include "materials/photograph/colour_range.h"
#include "tests/support/simulated_shot.h"

namespace rakelight {
namespace {

using namespace test;

glm::dvec2 place_of_sample(std::size_t i) {
    return {0.7 + 0.15 * static_cast<double>(i % 11), -0.4 + 0.1 * static_cast<double>(i / 11)};
}

std::vector<ReflectanceEstimate> estimates(std::vector<Shot> shots) {
    std::vector<ChartFit> fits;
    for (Shot& shot : shots) fits.push_back(shot.fit());
    std::vector<ReflectanceEstimate> found;
    const std::vector<Spectrum> samples = evaluation_samples();
    for (std::size_t i = 0; i < samples.size(); ++i) {
        std::vector<SeenSample> seen;
        for (std::size_t k = 0; k < shots.size(); ++k) {
            const Reading r = shots[k].read(samples[i], place_of_sample(i));
            seen.push_back({fits[k].camera, undone(fits[k], r), r.usable, fits[k].light.doubt(r.at)});
        }
        found.push_back(estimate_reflectance(seen));
    }
    return found;
}

std::vector<double> all_off(const std::vector<ReflectanceEstimate>& found, const std::string& illuminant) {
    const std::vector<Spectrum> truth = evaluation_samples();
    std::vector<double> off;
    for (std::size_t i = 0; i < truth.size(); ++i)
        off.push_back(colour_off(illuminant, found[i].reflectance, truth[i]));
    return off;
}

void expect_within(const std::vector<ReflectanceEstimate>& found, const std::string& illuminant,
                   double median, double nine_in_ten) {
    const std::vector<double> off = all_off(found, illuminant);
    SCOPED_TRACE(illuminant);
    EXPECT_LE(quantile(off, 0.5), median);
    EXPECT_LE(quantile(off, 0.9), nine_in_ten);
}

void expect_within_everywhere(const std::vector<ReflectanceEstimate>& found, double median,
                              double nine_in_ten) {
    for (const char* illuminant : {"D65", "A", "LED-B3"})
        expect_within(found, illuminant, median, nine_in_ten);
}

Shot raw() {
    Shot shot;
    shot.pixels.noise = 0;
    shot.pixels.eight_bits = false;
    shot.fall = 0;
    return shot;
}

TEST(ReflectanceEstimate, RawFileWithoutNoise) {
    Shot shot = raw();
    shot.sheet = false;
    expect_within_everywhere(estimates({shot}), 1.0, 2.1);
}

TEST(ReflectanceEstimate, EightBitsNoiseAndFallingLight) {
    expect_within_everywhere(estimates({Shot{}}), 1.2, 2.6);
}

TEST(ReflectanceEstimate, FallingLightWithoutAWhiteSheet) {
    Shot shot;
    shot.sheet = false;
    expect_within_everywhere(estimates({shot}), 1.2, 2.6);
}

TEST(ReflectanceEstimate, AnotherCameraAndAnotherToneCurve) {
    Shot shot;
    shot.camera = invented_camera();
    shot.pixels.exponent = 0.85;
    expect_within_everywhere(estimates({shot}), 1.2, 2.6);
}

TEST(ReflectanceEstimate, UnderTheLampOfThePhotographWhateverItIs) {
    for (const char* illuminant : {"A", "LED-B3", "F11"}) {
        Shot shot;
        shot.illuminant = illuminant;
        expect_within(estimates({shot}), illuminant, 1.2, 2.6);
    }
}

TEST(ReflectanceEstimate, PhotographsUnderTwoLampsAddUp) {
    Shot daylight, evening;
    evening.illuminant = "A";
    const auto one = estimates({daylight}), two = estimates({daylight, evening});
    for (const char* illuminant : {"D65", "A", "LED-B3"}) expect_within(two, illuminant, 1.2, 2.6);
    EXPECT_LT(quantile(all_off(two, "A"), 0.5), quantile(all_off(one, "A"), 0.5));
}

// What is said to be left open is what is off: nine in ten of the samples within the range told for nine in
// ten, give or take (binomial, 99 samples: 84 % is two and a half standard deviations down).
TEST(ReflectanceEstimate, RangeHoldsTheTruth) {
    for (const char* lamp : {"D65", "A"}) {
        Shot shot;
        shot.illuminant = lamp;
        const auto found = estimates({shot});
        const std::vector<Spectrum> truth = evaluation_samples();
        for (std::size_t light = 0; light < 3; ++light) {
            int held = 0;
            for (std::size_t i = 0; i < truth.size(); ++i) {
                const ColourRange range = colour_ranges(found[i])[light];
                held += colour_off(range.light, found[i].reflectance, truth[i]) <= range.nine_in_ten;
            }
            EXPECT_GE(held, 84 * 99 / 100) << lamp << " " << light;
        }
    }
}

TEST(ReflectanceEstimate, ClippedChannelsAreLeftOut) {
    Shot shot;
    const ChartFit fit = shot.fit();
    const Spectrum truth = evaluation_samples()[10];
    Reading r = shot.read(truth, {1, 0});
    SeenSample whole{fit.camera, undone(fit, r), r.usable, 0.01};
    SeenSample blown = whole;
    blown.value[0] = 0.2;  // not what was sent
    blown.usable[0] = false;
    const auto good = estimate_reflectance(std::array{whole}), left = estimate_reflectance(std::array{blown});
    EXPECT_LT(colour_ranges(good)[0].nine_in_ten, colour_ranges(left)[0].nine_in_ten);
    blown.usable = {false, false, false};
    EXPECT_THROW(estimate_reflectance(std::array{blown}), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
