#include "materials/optics/fresnel.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>

namespace rakelight {
namespace {

constexpr double kDegree = 0.017453292519943295;

double mean_over_hemisphere(double index) {
    // In the refracted cosine of the denser side where there is a critical angle, so that both halves are
    // smooth.
    return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
        [&](double z) { return 2 * z * dielectric_reflectance(z, index); }, 0.0, 1.0, 15, 1e-12);
}

// Fresnel's equations worked out to five places (from the textbook form, separately in s and p).
TEST(Fresnel, DielectricTable) {
    struct Row {
        double index;
        double reflectance[6];
    };
    constexpr double angles[] = {0, 20, 45, 60, 75, 85};
    for (const Row& row : {Row{1.333, {.02037, .02056, .02790, .05969, .21238, .58352}},
                           Row{1.500, {.04000, .04027, .05024, .08919, .25306, .61280}},
                           Row{1.520, {.04258, .04285, .05305, .09248, .25672, .61492}},
                           Row{1.567, {.04879, .04908, .05971, .10006, .26457, .61915}},
                           Row{1.620, {.05600, .05630, .06731, .10833, .27238, .62283}}})
        for (int i = 0; i < 6; ++i)
            EXPECT_NEAR(dielectric_reflectance(std::cos(angles[i] * kDegree), row.index), row.reflectance[i],
                        1e-5)
                << row.index << " at " << angles[i];
}

TEST(Fresnel, BrewsterAngleKeepsHalfOfS) {
    // At tan(angle) = n the p part is 0, and s is ((n^2 - 1) / (n^2 + 1))^2 (Born and Wolf, 1.5.3).
    for (const double n : {1.333, 1.5, 1.62}) {
        const double s = (n * n - 1) / (n * n + 1);
        EXPECT_NEAR(dielectric_reflectance(std::cos(std::atan(n)), n), 0.5 * s * s, 1e-12);
    }
}

TEST(Fresnel, ReversesThroughTheFace) {
    for (const double n : {1.33, 1.5, 1.7})
        for (double z = 0.05; z <= 1; z += 0.05) {
            const double inside = std::sqrt(1 - (1 - z * z) / (n * n));
            EXPECT_NEAR(dielectric_reflectance(z, n), dielectric_reflectance(inside, 1 / n), 1e-12);
        }
}

TEST(Fresnel, Degenerate) {
    EXPECT_EQ(dielectric_reflectance(0.0, 1.5), 1);
    EXPECT_EQ(dielectric_reflectance(0.7, 1.0), 0);
    EXPECT_EQ(dielectric_reflectance(0.0, 1.0), 0);
    EXPECT_EQ(dielectric_reflectance(0.5, 1 / 1.5), 1);  // beyond the critical angle, cosine 0.745
    EXPECT_NEAR(dielectric_reflectance(0.6f, 1.52f), dielectric_reflectance(0.6, 1.52), 1e-6);
}

// Incoherent plate of n = 1.52 by Stokes' sum, T = mean over s and p of (1-R)/(1+R); s and p of a lossless
// dielectric are those of a metal of k = 0.
TEST(Fresnel, PlateTable) {
    struct Row {
        double degrees, transmittance;
    };
    for (const Row row :
         {Row{0, .91832}, Row{30, .91596}, Row{45, .90253}, Row{60, .84347}, Row{75, .61481}}) {
        const Polarised r = metal_reflectances(std::cos(row.degrees * kDegree), 1.52, 0);
        EXPECT_NEAR(0.5 * ((1 - r.s) / (1 + r.s) + (1 - r.p) / (1 + r.p)), row.transmittance, 1e-5);
    }
}

// Judd 1942, J. Res. NBS 29, 329, and Walsh 1926: 0.0918 and 0.596 for n = 1.5.
TEST(Fresnel, DiffuseAverages) {
    EXPECT_NEAR(diffuse_reflectance_outside(1.5), 0.0918, 5e-5);
    EXPECT_NEAR(diffuse_reflectance_inside(1.5), 0.596, 5e-4);
    EXPECT_EQ(diffuse_reflectance_outside(1), 0);
    for (const double n : {1.001, 1.1, 1.333, 1.5, 1.52, 1.567, 1.7, 2.4})
        EXPECT_NEAR(diffuse_reflectance_outside(n), mean_over_hemisphere(n), 1e-8) << n;
}

TEST(Fresnel, DiffuseInsideByQuadrature) {
    for (const double n : {1.333, 1.52, 1.7}) {
        const double critical = std::sqrt(1 - 1 / (n * n));
        const double reaching = boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
            [&](double z) { return 2 * z * dielectric_reflectance(z, 1 / n); }, critical, 1.0, 15, 1e-10);
        EXPECT_NEAR(diffuse_reflectance_inside(n), critical * critical + reaching, 1e-7);
    }
}

// Gold, Johnson and Christy 1972, Phys. Rev. B 6, 4370: n, k interpolated at 450, 550 and 650 nm; 60 degrees.
TEST(Fresnel, GoldAtSixtyDegrees) {
    const double normal = metal_reflectance(1, 0.62, 2.081);  // 0.5209 um, a published point
    EXPECT_NEAR(normal, (0.38 * 0.38 + 2.081 * 2.081) / (1.62 * 1.62 + 2.081 * 2.081), 1e-12);
    const auto straight = [](double n0, double n1, double k0, double k1, double t) {
        return metal_reflectances(0.5, n0 + t * (n1 - n0), k0 + t * (k1 - k0));
    };
    const Polarised blue = straight(1.38, 1.38, 1.914, 1.914, 0);
    EXPECT_NEAR(blue.s, .65025, 0.01);
    EXPECT_NEAR(blue.p, .22904, 0.01);
    const Polarised green = straight(0.43, 0.29, 2.455, 2.863, (550 - 548.6) / (582.1 - 548.6));
    EXPECT_NEAR(green.s, .89525, 0.005);
    EXPECT_NEAR(green.p, .68930, 0.005);
    const Polarised red = straight(0.21, 0.14, 3.272, 3.697, (650 - 616.8) / (659.5 - 616.8));
    EXPECT_NEAR(red.s, .97862, 0.005);
    EXPECT_NEAR(red.p, .92463, 0.005);
}

// Specular gloss is 100 R(angle, n) / R(angle, 1.567) (ISO 2813); the ratios of its Table 2.
TEST(Fresnel, GlossRatios) {
    const auto gloss = [](double degrees, double n) {
        const double z = std::cos(degrees * kDegree);
        return 100 * dielectric_reflectance(z, n) / dielectric_reflectance(z, 1.567);
    };
    EXPECT_NEAR(gloss(20, 1.4), 57.0, 0.2);
    EXPECT_NEAR(gloss(60, 1.4), 71.9, 0.2);
    EXPECT_NEAR(gloss(60, 1.52), 92.4, 0.2);
    EXPECT_NEAR(gloss(85, 1.52), 99.3, 0.2);
    EXPECT_NEAR(gloss(60, 1.8), 134.6, 0.2);
}

}  // namespace
}  // namespace rakelight
