// Lekner and Dorf 1988, Appl. Opt. 27, 1278; Angstrom 1925.
#include "materials/stock/wetting.h"

#include <gtest/gtest.h>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

// Albedo = 1 - (1-Rl) a / (1 - p (1-a)) worked out by hand for water, n = 1.333: Angstrom's p = 1 - 1/n^2 and
// no mirror; Lekner and Dorf's p = 0.47459 with a mirror of 0.0204 (head-on) or 0.0664 (diffuse).
TEST(Wetting, AlbedoOfWetGround) {
    const double n = 1.333;
    const double angstrom = 1 - 1 / (n * n), returned = diffuse_reflectance_inside(n);
    EXPECT_NEAR(angstrom, 0.43722, 1e-5);
    EXPECT_NEAR(returned, 0.47459, 1e-4);
    const struct {
        double dry, angstrom, head_on, diffuse;
    } cases[] = {{.10, .05885, .07443, .11790},
                 {.20, .12334, .13413, .17480},
                 {.30, .19432, .20044, .23799},
                 {.50, .36012, .35781, .38797},
                 {.70, .56769, .55992, .58059}};
    for (const auto& c : cases) {
        EXPECT_NEAR(1 - wet_absorptance(1 - c.dry, 0, angstrom), c.angstrom, 1e-4);
        EXPECT_NEAR(1 - wet_absorptance(1 - c.dry, 0.0204, returned), c.head_on, 1e-4);
        EXPECT_NEAR(1 - wet_absorptance(1 - c.dry, 0.0664, returned), c.diffuse, 1e-4);
    }
}

// A face over a body (Saunderson) with the film's reflectances is the same equation.
TEST(Wetting, IsAFaceOfTheLiquidOverTheGround) {
    for (const double n : {1.333, 1.44, 1.49})
        for (const double dry : {0.05, 0.3, 0.9}) {
            const double k1 = diffuse_reflectance_outside(n), k2 = diffuse_reflectance_inside(n);
            EXPECT_NEAR(k1 + through_interface(dry, k1, k2), 1 - wet_absorptance(1 - dry, k1, k2), 1e-12);
        }
}

// The paper's limits: weak absorbers gain (1 - R(grain/liquid)) / (1 - R(grain)), black ones nothing; a
// liquid of the grains' own index leaves them no faces. Diffuse reflectances of n = 1.5 after Judd 1942:
// 0.0918.
TEST(Wetting, SoakedGrainsScatterLess) {
    EXPECT_NEAR(soaked_absorptance(1e-6, 1.5) / 1e-6, 1 / (1 - 0.0918), 1e-4);
    EXPECT_DOUBLE_EQ(soaked_absorptance(1, 1.333), 1);
    EXPECT_DOUBLE_EQ(soaked_absorptance(0, 1.333), 0);
    for (double a = 0.05; a < 1; a += 0.05) {
        EXPECT_GT(soaked_absorptance(a, 1.333), a);
        EXPECT_GT(soaked_absorptance(a, 1.49), soaked_absorptance(a, 1.333));
        EXPECT_LT(soaked_absorptance(a, 1.49), 1);
        EXPECT_NEAR(soaked_absorptance(a, 1), a, 1e-12);  // air again
    }
}

// Two interfaces head-on in closed form: r1 + (1-r1)^2 r2 / (1 - r1 r2).
TEST(Wetting, FilmOnADenserBody) {
    EXPECT_NEAR(film_index(1.333, 1.333), 1.333, 1e-12);
    EXPECT_NEAR(film_index(1, 1.52), 1.52, 1e-12);
    const double r1 = (0.333 / 2.333) * (0.333 / 2.333), r2 = (0.187 / 2.853) * (0.187 / 2.853);
    EXPECT_NEAR(dielectric_reflectance(1.0, film_index(1.333, 1.52)),
                r1 + (1 - r1) * (1 - r1) * r2 / (1 - r1 * r2), 1e-12);
    EXPECT_LT(film_index(1.333, 1.52), 1.52);
}

TEST(Wetting, PoresDarkenAllButWhite) {
    EXPECT_DOUBLE_EQ(open_pores(1, 0.4), 1);
    EXPECT_DOUBLE_EQ(open_pores(0.5, 0), 0.5);
    EXPECT_DOUBLE_EQ(open_pores(1, 1), 1);
    EXPECT_NEAR(open_pores(0.5, 0.4), 0.6 * (0.5 + 0.2 * 0.5 + 0.04 * 0.5 + 0.008 * 0.5),
                1e-3);  // the series
    EXPECT_LT(open_pores(0.1, 0.4) / 0.1, open_pores(0.6, 0.4) / 0.6);
}

}  // namespace
}  // namespace rakelight
