// Gold and silver against Johnson and Christy 1972 (Phys. Rev. B 6, 4370) as carried by the
// refractiveindex.info database (CC0), interpolated to the bands by others: tests/data/metals_glass_nk.csv.
#include "materials/optics/metal.h"

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/optics/fresnel.h"
#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

test::CsvTable published() {
    return test::read_csv(RAKELIGHT_TEST_DATA "/metals_glass_nk.csv");
}

TEST(Metal, IndexIsThePublishedOne) {
    const test::CsvTable table = published();
    ASSERT_EQ(table.rows.size(), static_cast<std::size_t>(kBandCount));
    for (std::size_t i = 0; i < kBandCount; ++i) {
        ASSERT_EQ(table.number(i, "wavelength_nm"), band_wavelength_nm(static_cast<int>(i)));
        EXPECT_NEAR(metal_index(Leaf::gold).n[i], table.number(i, "Au_n"), 0.001);
        EXPECT_NEAR(metal_index(Leaf::gold).k[i], table.number(i, "Au_k"), 0.001);
        EXPECT_NEAR(metal_index(Leaf::silver).n[i], table.number(i, "Ag_n"), 0.001);
        EXPECT_NEAR(metal_index(Leaf::silver).k[i], table.number(i, "Ag_k"), 0.001);
    }
    EXPECT_THROW(metal_index(Leaf::none), std::invalid_argument);
}

TEST(Metal, ReflectanceAtNormalIncidence) {
    const test::CsvTable table = published();
    const SampledSpectrum gold = metal_mirror(metal_index(Leaf::gold), 1, 1);
    const SampledSpectrum silver = metal_mirror(metal_index(Leaf::silver), 1, 1);
    for (std::size_t i = 0; i < kBandCount; ++i) {
        const int b = static_cast<int>(i);
        EXPECT_NEAR(gold[b], table.number(i, "Au_R0"), 0.001);
        EXPECT_NEAR(silver[b], table.number(i, "Ag_R0"), 0.001);
    }
}

// Copper as renderers have it, linear sRGB 0.955, 0.638, 0.538 (Akenine-Moller et al., Real-Time Rendering,
// 4th ed., table 9.2, from memory); evaporated films reflect 0.60 at 500 nm (Hass and Hadley, AIP Handbook,
// from memory).
TEST(Metal, CopperIsCopper) {
    const SampledSpectrum copper = metal_mirror(metal_index(Leaf::copper), 1, 1);
    const auto xyz = integrate(tristimulus_weights(*find_illuminant("D65")), copper);
    const LinearRgb seen = xyz_to_linear_rgb({xyz[0], xyz[1], xyz[2]});
    EXPECT_NEAR(seen.r, 0.955, 0.03);
    EXPECT_NEAR(seen.g, 0.638, 0.03);
    EXPECT_NEAR(seen.b, 0.538, 0.03);
    EXPECT_NEAR(copper[5], 0.60, 0.03);
}

// Complex Fresnel of gold at 60 degrees (Born and Wolf, sec. 14.2, worked out apart from this program with
// the published indices at 450, 550 and 650 nm).
TEST(Metal, FresnelAtSixtyDegrees) {
    const struct {
        double n, k, s, p;
    } cases[] = {
        {1.3830, 1.9169, .65025, .22904}, {0.4241, 2.4721, .89525, .68930}, {0.1556, 3.6023, .97862, .92463}};
    for (const auto& c : cases) {
        const Polarised r = metal_reflectances(0.5, c.n, c.k);
        EXPECT_NEAR(r.s, c.s, 5e-4);
        EXPECT_NEAR(r.p, c.p, 1e-3);
    }
}

TEST(Metal, MirrorsLessUnderGlassAndAllAtGrazing) {
    for (const Leaf leaf : {Leaf::gold, Leaf::silver, Leaf::copper}) {
        const MetalIndex& metal = metal_index(leaf);
        const SampledSpectrum air = metal_mirror(metal, 1, 1), glass = metal_mirror(metal, 1, 1.52);
        for (int b = 0; b < kBandCount; ++b) EXPECT_LT(glass[b], air[b]);
        EXPECT_NEAR(min_value(metal_mirror(metal, 0, 1)), 1, 1e-6);
    }
    // R0 under glass in closed form: ((n-g)^2 + k^2) / ((n+g)^2 + k^2).
    const MetalIndex& gold = metal_index(Leaf::gold);
    const double n = gold.n[0], k = gold.k[0], g = 1.52;
    EXPECT_NEAR(metal_mirror(gold, 1, g)[0], ((n - g) * (n - g) + k * k) / ((n + g) * (n + g) + k * k), 1e-6);
}

TEST(Metal, DiffuseLiesBetweenHeadOnAndGrazing) {
    const MetalIndex& gold = metal_index(Leaf::gold);
    const SampledSpectrum mean = metal_diffuse(gold, 1), normal = metal_mirror(gold, 1, 1);
    for (int b = 0; b < kBandCount; ++b) {
        EXPECT_GT(mean[b], 0.95f * normal[b]);
        EXPECT_LT(mean[b], 1);
    }
}

// Head-on both polarisations are one: R of the plate over the leaf is f + (1-f)^2 t^2 m / (1 - f t^2 m), and
// the part that entered was 1-f.
TEST(Metal, UnderGlassHeadOnIsTheGeometricSeries) {
    const MetalIndex& gold = metal_index(Leaf::gold);
    const SampledSpectrum seen = metal_under_glass(gold, 1.52, 1, SampledSpectrum(0.8f));
    const double f = (0.52 / 2.52) * (0.52 / 2.52);
    for (int b = 0; b < kBandCount; ++b) {
        const double x = 0.64 * metal_mirror(gold, 1, 1.52)[b];
        EXPECT_NEAR(seen[b], (1 - f) * x / (1 - f * x), 1e-5);
    }
    for (const double c : {0.2, 0.7, 1.0}) {
        const SampledSpectrum bare = metal_under_glass(gold, 1, c, SampledSpectrum(1)),
                              mirror = metal_mirror(gold, c, 1);
        for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(bare[b], mirror[b], 1e-6);
    }
    EXPECT_EQ(metal_under_glass(gold, 1.52, 0.3, SampledSpectrum(1)),
              SampledSpectrum());  // beyond the critical angle
}

}  // namespace
}  // namespace rakelight
