#include "materials/stock/glass_stack.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <stdexcept>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/surface.h"
#include "materials/stock/stock.h"

namespace rakelight {
namespace {

const Material& stock(const char* name) {
    return *find_stock(name);
}

SampledSpectrum transmittance(const Material& m) {  // inside, straight through
    return map(m.absorption_per_mm, [&](float k) { return std::exp(-k * m.thickness_mm); });
}

SampledSpectrum body(const Material& m, double thickness_mm, float backing) {
    InterfaceTables cache;
    const Surface s = make_surface(m, thickness_mm, SampledSpectrum(backing), 1, cache);
    return directional_albedo(s, 1) - SampledSpectrum(1 - s.transmittance(1));
}

Material of_transmittance_3mm(float t) {
    Material m = stock("clear");
    m.absorption_per_mm = SampledSpectrum(-std::log(t) / 3);
    m.scattering_per_mm = SampledSpectrum();
    return m;
}

// Volume is kept and a free stack tends to 6 mm (common practice of fusing, no published source).
TEST(GlassStack, SixMillimetreRule) {
    EXPECT_EQ(fused_size(6, Firing::free).thickness_mm, 6);
    EXPECT_EQ(fused_size(6, Firing::free).area_growth, 1);
    EXPECT_EQ(fused_size(9, Firing::free).thickness_mm, 6);
    EXPECT_DOUBLE_EQ(fused_size(9, Firing::free).area_growth, 1.5);
    EXPECT_EQ(fused_size(3, Firing::free).thickness_mm, 3);
    EXPECT_EQ(fused_size(12, Firing::dammed).thickness_mm, 12);
    for (const double mm : {1., 6., 7., 20.})
        for (const Firing firing : {Firing::free, Firing::dammed}) {
            const FusedSize size = fused_size(mm, firing);
            EXPECT_DOUBLE_EQ(size.thickness_mm * size.area_growth, mm);
        }
}

// Transmittances multiply: Beer-Lambert.
TEST(GlassStack, TransmittancesMultiply) {
    const Material a = of_transmittance_3mm(0.2f), b = of_transmittance_3mm(0.7f);
    const Material two = fuse("two", std::vector<StackedSheet>{{&a, 3}, {&b, 3}}, Firing::free);
    EXPECT_EQ(two.thickness_mm, 6);
    EXPECT_NEAR(transmittance(two)[4], 0.2 * 0.7, 1e-6);
    // Three sheets spread to two thirds of their thickness: T to the power 2/3.
    const Material three = fuse("three", std::vector<StackedSheet>{{&a, 3}, {&b, 3}, {&b, 3}}, Firing::free);
    EXPECT_EQ(three.thickness_mm, 6);
    EXPECT_NEAR(transmittance(three)[4], std::pow(0.2 * 0.7 * 0.7, 2. / 3), 1e-6);
    const Material held = fuse("held", std::vector<StackedSheet>{{&a, 3}, {&b, 3}, {&b, 3}}, Firing::dammed);
    EXPECT_EQ(held.thickness_mm, 9);
    EXPECT_NEAR(transmittance(held)[4], 0.2 * 0.7 * 0.7, 1e-6);
}

// Light crosses a stack of 2 x 3 mm twice: T^4 of one sheet, whatever the T.
TEST(GlassStack, DoublePassOfTwoSheets) {
    // Head-on both ways: g squared, over a backing too dull for returns under the face.
    const auto head_on = [](const Material& m) {
        InterfaceTables cache;
        const float g = make_surface(m, 6, SampledSpectrum(1e-4f), 1, cache).g.back()[0];
        return static_cast<double>(g) * g;
    };
    const double none = head_on(of_transmittance_3mm(1));
    for (const double t : {.1, .3, .5, .7}) {
        const Material one = of_transmittance_3mm(static_cast<float>(t));
        const Material two = fuse("two", std::vector<StackedSheet>{{&one, 3}, {&one, 3}}, Firing::free);
        EXPECT_NEAR(head_on(two) / none, std::pow(t, 4), 3e-3 * std::pow(t, 4)) << t;
    }
}

TEST(GlassStack, EqualSheetsAreOneThickSheet) {
    for (const char* name : {"deep-teal", "opal", "aqua"}) {
        const Material& m = stock(name);
        const Material two = fuse("two", std::vector<StackedSheet>{{&m, 2}, {&m, 4}}, Firing::free);
        const SampledSpectrum a = body(two, 6, 0.6f), b = body(m, 6, 0.6f);
        for (int i = 0; i < kBandCount; ++i) EXPECT_NEAR(a[i], b[i], 1e-5f + 1e-4f * b[i]) << name;
    }
}

TEST(GlassStack, OrderTellsOnlyWhereLightScatters) {
    Material aqua = stock("aqua"), ruby = stock("ruby");
    aqua.scattering_per_mm = ruby.scattering_per_mm = SampledSpectrum();
    const SampledSpectrum a =
        body(fuse("a", std::vector<StackedSheet>{{&aqua, 3}, {&ruby, 3}}, Firing::free), 6, 0.6f);
    const SampledSpectrum b =
        body(fuse("b", std::vector<StackedSheet>{{&ruby, 3}, {&aqua, 3}}, Firing::free), 6, 0.6f);
    for (int i = 0; i < kBandCount; ++i) EXPECT_NEAR(a[i], b[i], 1e-6f);
    const Material& opal = stock("opal");
    const SampledSpectrum over =
        body(fuse("c", std::vector<StackedSheet>{{&opal, 3}, {&ruby, 3}}, Firing::free), 6, 0.1f);
    const SampledSpectrum under =
        body(fuse("d", std::vector<StackedSheet>{{&ruby, 3}, {&opal, 3}}, Firing::free), 6, 0.1f);
    EXPECT_GT(over[6], 5 * under[6]);  // 520 nm, which ruby takes
}

TEST(GlassStack, OpaqueOnTopHidesTheRest) {
    const Material &jet = stock("jet"), &white = stock("foam-white"), &aqua = stock("aqua");
    const Material top = fuse("top", std::vector<StackedSheet>{{&white, 3}, {&jet, 3}}, Firing::free);
    EXPECT_TRUE(top.opaque);
    EXPECT_EQ(top.reflectance, white.reflectance);
    EXPECT_EQ(body(top, 6, 0), body(white, 6, 0));
    // Under a tint it stands in for the bed.
    const Material tint =
        fuse("tint", std::vector<StackedSheet>{{&aqua, 3}, {&white, 2}, {&jet, 1}}, Firing::free);
    EXPECT_FALSE(tint.opaque);
    EXPECT_EQ(body(tint, 6, 0), body(tint, 6, 1));
    InterfaceTables cache;
    const Surface expected = make_surface(aqua, 3, white.reflectance, 1, cache);
    const SampledSpectrum seen = body(tint, 6, 0), wanted = directional_albedo(expected, 1) -
                                                            SampledSpectrum(1 - expected.transmittance(1));
    for (int i = 0; i < kBandCount; ++i) EXPECT_NEAR(seen[i], wanted[i], 2e-4f);
}

TEST(GlassStack, KeepsMeansOfTheSheets) {
    Material heavy = stock("clear");
    heavy.density_g_per_cm3 = 4;
    heavy.provenance = Provenance::measured;
    const Material m = fuse("m", std::vector<StackedSheet>{{&heavy, 2}, {&stock("aqua"), 4}}, Firing::free);
    EXPECT_NEAR(m.density_g_per_cm3, (2 * 4 + 4 * 2.5) / 6, 1e-6);
    EXPECT_EQ(m.provenance, Provenance::invented);
    EXPECT_EQ(m.name, "m");
}

TEST(GlassStack, LadderGoesInEqualRatiosOfTransmittance) {
    const Material a = of_transmittance_3mm(0.1f), b = of_transmittance_3mm(0.9f);
    const auto ladder = shade_ladder("sea", a, b, 5);
    ASSERT_EQ(ladder.size(), 5u);
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_EQ(ladder[i].name, "sea-" + std::to_string(i + 1));
        EXPECT_NEAR(std::exp(-3 * ladder[i].absorption_per_mm[2]), 0.1 * std::pow(9.0, double(i) / 4), 1e-5);
    }
    EXPECT_EQ(shade_ladder("x", stock("aqua"), stock("ruby"), 2)[0].absorption_per_mm,
              stock("aqua").absorption_per_mm);
    EXPECT_EQ(shade_ladder("x", stock("aqua"), stock("ruby"), 2)[1].absorption_per_mm,
              stock("ruby").absorption_per_mm);
}

// Duncan 1940: mixed K/S is the mean. Reflectances 0.5 and 0.381966 have K/S of 0.25 and 0.5.
TEST(GlassStack, OpaqueLadderMixesByKubelkaMunk) {
    Material a = stock("jet"), b = a;
    a.reflectance = SampledSpectrum(0.5f);
    b.reflectance = SampledSpectrum(0.381966f);
    const auto ladder = shade_ladder("grey", a, b, 3);
    EXPECT_EQ(ladder[0].reflectance, a.reflectance);
    EXPECT_EQ(ladder[2].reflectance, b.reflectance);
    EXPECT_NEAR(ladder[1].reflectance[0], 1.375 - std::sqrt(1.375 * 1.375 - 1), 1e-6);  // K/S = 0.375
}

// Dark red glass, from 2 mm over a white bed to 6 mm over a dark one: red at one end, black at the other, and
// no turning back between.
TEST(GlassStack, DarkRedGlassGoesMonotonicallyToBlack) {
    const Spectrum day = *find_illuminant("D65");
    const TristimulusWeights weights = tristimulus_weights(day);
    const std::array<float, 3> white_xyz = integrate(weights, SampledSpectrum(1));
    const Xyz white{white_xyz[0], white_xyz[1], white_xyz[2]};
    Material ruby = stock("ruby");
    double last = 2;
    Lab first{};
    double y = 0;
    constexpr int kSteps = 12;
    for (int i = 0; i <= kSteps; ++i) {
        const float t = static_cast<float>(i) / kSteps;
        const auto xyz = integrate(weights, body(ruby, 2 + 4 * t, 0.85f + t * (0.05f - 0.85f)));
        y = xyz[1] / white_xyz[1];
        EXPECT_LT(y, last) << i;
        last = y;
        if (i == 0) first = xyz_to_lab({xyz[0], xyz[1], xyz[2]}, white);
    }
    const double chroma = std::hypot(first.a, first.b), hue_deg = std::atan2(first.b, first.a) * 57.29578;
    // A red, and at last black: thresholds of our own, only to catch a slip.
    EXPECT_GT(chroma, 25);
    EXPECT_GT(hue_deg, 0);
    EXPECT_LT(hue_deg, 50);
    EXPECT_LT(y, 0.01);
}

TEST(GlassStack, RefusesWhatCannotBeFused) {
    const Material &aqua = stock("aqua"), &slate = stock("slate"), &jet = stock("jet");
    Material gilded = aqua;
    gilded.leaf = Leaf::gold;
    Material tinted = fuse("t", std::vector<StackedSheet>{{&aqua, 3}, {&jet, 3}}, Firing::free);
    const std::vector<std::pair<const char*, std::function<void()>>> cases{
        {"nothing", [&] { fuse("x", {}, Firing::free); }},
        {"no thickness",
         [&] {
             fuse("x", std::vector<StackedSheet>{{&aqua, 0}}, Firing::free);
         }},
        {"NaN",
         [&] {
             fuse("x", std::vector<StackedSheet>{{&aqua, NAN}}, Firing::free);
         }},
        {"endless",
         [&] {
             fuse("x", std::vector<StackedSheet>{{&aqua, INFINITY}}, Firing::free);
         }},
        {"no glass",
         [&] {
             fuse("x", std::vector<StackedSheet>{{nullptr, 3}}, Firing::free);
         }},
        {"stone",
         [&] {
             fuse("x", std::vector<StackedSheet>{{&slate, 3}}, Firing::free);
         }},
        {"leaf",
         [&] {
             fuse("x", std::vector<StackedSheet>{{&gilded, 3}}, Firing::free);
         }},
        {"one step", [&] { shade_ladder("x", aqua, stock("ruby"), 1); }},
        {"100 steps", [&] { shade_ladder("x", aqua, stock("ruby"), 100); }},
        {"opaque with clear", [&] { shade_ladder("x", aqua, jet, 3); }},
        {"to stone", [&] { shade_ladder("x", jet, slate, 3); }},
        {"from a stack", [&] { shade_ladder("x", tinted, aqua, 3); }},
    };
    for (const auto& [what, act] : cases) EXPECT_THROW(act(), std::invalid_argument) << what;
}

}  // namespace
}  // namespace rakelight
