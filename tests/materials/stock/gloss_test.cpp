// Gloss against the ratios of Fresnel's reflectances that ISO 2813 and ASTM D523 tabulate, and against
// integrals made another way.
#include "materials/stock/gloss.h"

#include <gtest/gtest.h>

#include <random>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/fresnel.h"
#include "tests/support/one_surface.h"

namespace rakelight {
namespace {

constexpr GlossAngle kAngles[] = {GlossAngle::deg20, GlossAngle::deg60, GlossAngle::deg85};

Material black(float index, float roughness) {
    Material m;
    m.reflectance = SampledSpectrum(0);
    m.index = index;
    m.roughness = roughness;
    return m;
}

double gloss(const Material& m, GlossAngle angle) {
    InterfaceTables faces;
    return gloss_units(make_surface(m, 6, SampledSpectrum(), 1, faces), angle);
}

// ISO 2813:2014: gloss of a polished surface by its index, 100 at n = 1.567 by definition. Values from
// Fresnel's equations; tolerance is that of the windows, over which the angle varies.
TEST(Gloss, PolishedBlackGlass) {
    struct Row {
        double index;
        double units[3];
    };
    for (const Row& row :
         {Row{1.400, {57.0, 71.9, 96.6}}, Row{1.460, {71.8, 82.4, 98.2}}, Row{1.500, {82.0, 89.1, 99.0}},
          Row{1.520, {87.3, 92.4, 99.3}}, Row{1.567, {100, 100, 100}}, Row{1.600, {109.1, 105.2, 100.4}},
          Row{1.660, {126.1, 114.3, 100.9}}, Row{1.800, {167.0, 134.6, 101.7}}})
        for (int i = 0; i < 3; ++i) {
            EXPECT_NEAR(smooth_gloss_units(row.index, kAngles[i]), row.units[i], 0.06) << row.index;
            EXPECT_NEAR(gloss(black(static_cast<float>(row.index), 0), kAngles[i]), row.units[i], 0.2)
                << row.index;
        }
}

// A perfectly matte white sends cos / pi per steradian into the window: at 60 degrees 4.4 x 11.7 degrees see
// 0.01568 sr, that is 0.00250 of the light; at 20 degrees 1.8 x 3.6 see 0.00197 sr; at 85 degrees 4 x 6 see
// 0.0073. The solid angle of a rectangle: 4 asin(sin(a / 2) sin(b / 2)).
TEST(Gloss, MatteWhite) {
    const double openings[3][3] = {{20, 1.8, 3.6}, {60, 4.4, 11.7}, {85, 4.0, 6.0}};
    Material m;
    m.reflectance = SampledSpectrum(1);
    for (int i = 0; i < 3; ++i) {
        const auto [angle, a, b] = std::array{openings[i][0], openings[i][1], openings[i][2]};
        const double cosine = std::cos(glm::radians(angle));
        const double sr = 4 * std::asin(std::sin(glm::radians(a / 2)) * std::sin(glm::radians(b / 2)));
        const double expected =
            100 * sr * cosine / glm::radians(180.0) / dielectric_reflectance(cosine, 1.567);
        EXPECT_NEAR(gloss(m, kAngles[i]), expected, 0.02 * expected) << angle;
    }
}

// The same integral by another road: a count of sampled reflections that fall into the window.
double counted(const Surface& s, int which) {
    static constexpr double kReceptor_deg[3][3] = {{20, 1.8, 3.6}, {60, 4.4, 11.7}, {85, 4.0, 6.0}};
    const TristimulusWeights light = tristimulus_weights(*find_illuminant("C"));
    std::mt19937 bits(7);
    const auto uniform = [&] { return static_cast<double>(bits() >> 5) / 134217728.0; };
    const double angle = glm::radians(kReceptor_deg[which][0]);
    const glm::dvec3 axis(std::sin(angle), 0, std::cos(angle)), in_plane(axis.z, 0, -axis.x);
    const glm::dvec2 half(std::tan(glm::radians(kReceptor_deg[which][1] / 2)),
                          std::tan(glm::radians(kReceptor_deg[which][2] / 2)));
    const glm::dvec2 lamp(std::tan(glm::radians(0.375)), std::tan(glm::radians(1.25)));
    double total = 0;
    constexpr int kCount = 400'000;
    for (int k = 0; k < kCount; ++k) {
        const glm::dvec3 from = glm::normalize(glm::dvec3(-axis.x, 0, axis.z) +
                                               (2 * uniform() - 1) * lamp.x * glm::dvec3(axis.z, 0, axis.x) +
                                               glm::dvec3(0, (2 * uniform() - 1) * lamp.y, 0));
        Bounce b;
        const glm::vec3 u(uniform(), uniform(), uniform());
        if (!sample(SurfaceLanes(s, glm::vec3(from), 1, true), u, b)) continue;
        const glm::dvec3 to(b.in);
        const double ahead = glm::dot(to, axis);
        if (ahead > 0 && std::abs(glm::dot(to, in_plane)) < half.x * ahead && std::abs(to.y) < half.y * ahead)
            total += static_cast<double>(integrate(light, b.weight.base)[1] + b.weight.interface);
    }
    return 100 * total / kCount / dielectric_reflectance(std::cos(angle), 1.567);
}

TEST(Gloss, RoughFacesAsSampled) {
    for (const float alpha : {0.01f, 0.03f, 0.1f, 0.3f})
        for (int i = 0; i < 3; ++i) {
            InterfaceTables faces;
            const Surface s = make_surface(black(1.5f, alpha), 6, SampledSpectrum(), 1, faces);
            const double expected = counted(s, i);
            EXPECT_NEAR(gloss_units(s, kAngles[i]), expected, 0.01 * expected + 0.05) << alpha << ' ' << i;
        }
}

// Metal leaf, bare and under glass: meters read several hundred units on it.
TEST(Gloss, LeafAsSampled) {
    for (const bool bare : {true, false})
        for (const float roughness : {0.03f, 0.08f, 0.3f})
            for (int i = 0; i < 3; ++i) {
                Material m = black(1.52f, bare ? 0.f : 0.02f);
                m.opaque = bare;
                m.leaf = Leaf::gold;
                m.leaf_roughness = roughness;
                InterfaceTables faces;
                const Surface s = make_surface(m, 4, SampledSpectrum(), 1, faces);
                const double expected = counted(s, i);
                EXPECT_NEAR(gloss_units(s, kAngles[i]), expected, 0.02 * expected + 0.2)
                    << bare << ' ' << roughness << ' ' << i;
            }
}

// The rougher, the duller.
TEST(Gloss, FallsWithRoughness) {
    double before = 200;
    for (const float alpha : {0.f, 0.005f, 0.02f, 0.05f, 0.1f, 0.2f, 0.4f, 0.8f}) {
        const double now = gloss(black(1.52f, alpha), GlossAngle::deg60);
        EXPECT_LT(now, before) << alpha;
        EXPECT_GT(now, 0);
        before = now;
    }
}

}  // namespace
}  // namespace rakelight
