// Leaf inside the surface: its energy, reciprocity and sampling, and its colour against the closed form of
// a smooth leaf.
#include "materials/optics/leaf.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <random>
#include <stdexcept>

#include "materials/optics/metal.h"
#include "materials/optics/surface.h"
#include "materials/stock/stock.h"
#include "tests/support/one_surface.h"
#include "tests/support/optics_samples.h"

namespace rakelight {
namespace {

Material gilded(Leaf leaf, float roughness) {
    Material m;
    m.reflectance = SampledSpectrum(0.2f);
    m.leaf = leaf;
    m.leaf_roughness = roughness;
    return m;
}

Material under_glass(Leaf leaf, float roughness, float absorption = 0, float scattering = 0) {
    Material m = gilded(leaf, roughness);
    m.opaque = false;
    m.index = 1.52f;
    m.roughness = 0.02f;
    m.absorption_per_mm = SampledSpectrum(absorption);
    m.scattering_per_mm = SampledSpectrum(scattering);
    return m;
}

// The surface with metal that loses nothing: what remains must be energy kept.
Surface white(Surface s) {
    for (SampledSpectrum& node : s.g) node = SampledSpectrum(1);
    s.among = SampledSpectrum(1);
    return s;
}

SampledSpectrum returned_by_samples(const Surface& s, const glm::vec3& out) {
    constexpr int kCount = 1 << 17;
    const SurfaceLanes bsdf(s, out, 1, true);
    SampledSpectrum total;
    for (int i = 0; i < kCount; ++i)
        if (Bounce b; sample(bsdf, spread_point(i), b)) total += b.weight.base + b.weight.interface;
    return total * (1.0f / kCount);
}

TEST(Leaf, WhiteFurnace) {
    InterfaceTables cache;
    double worst = 0;
    for (const float roughness : {0.02f, 0.08f, 0.3f, 0.6f, 1.0f})
        for (const bool bare : {true, false}) {
            const Material m = bare ? gilded(Leaf::gold, roughness) : under_glass(Leaf::gold, roughness);
            const Surface s = white(make_surface(m, 3, SampledSpectrum(), 1, cache));
            for (const double z : {1.0, 0.7, 0.4, 0.15}) {
                const double seen = returned_by_samples(s, direction(z, 0.3))[7];
                worst = std::max(worst, std::fabs(seen - 1));
                EXPECT_NEAR(seen, 1, 6e-3) << roughness << ' ' << bare << ' ' << z;
                EXPECT_NEAR(directional_albedo(s, static_cast<float>(z))[7], 1, 4e-3);
            }
        }
    for (const float stretch : {2.0f, 6.0f}) {  // brushed
        Material m = gilded(Leaf::silver, 0.15f);
        m.stretch = stretch;
        const Surface s = white(make_surface(m, 3, SampledSpectrum(), 1, cache));
        for (const double z : {1.0, 0.7, 0.4, 0.15})
            for (const double phi : {0.0, 0.8, 1.5}) {
                const double seen = returned_by_samples(s, direction(z, phi))[7];
                worst = std::max(worst, std::fabs(seen - 1));
                EXPECT_NEAR(seen, 1, 1e-2) << stretch << ' ' << z << ' ' << phi;
            }
    }
    std::printf("white leaf: worst departure %.5f\n", worst);
}

TEST(Leaf, SmoothLeafHasTheReflectanceOfTheMetal) {
    InterfaceTables cache;
    for (const Leaf leaf : {Leaf::gold, Leaf::silver}) {
        const MetalIndex& metal = metal_index(leaf);
        const Surface bare = make_surface(gilded(leaf, 0.02f), 3, SampledSpectrum(), 1, cache);
        for (const double z : {1.0, 0.8, 0.5}) {
            const SampledSpectrum expected = metal_mirror(metal, z, 1),
                                  seen = returned_by_samples(bare, direction(z, 1));
            // 8e-3: nine nodes in the cosine, and a lobe of 2 degrees
            for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(seen[b], expected[b], 8e-3) << z << ' ' << b;
        }
        // Through 3 mm of glass that passes 70 %: the plate's own reflectance and what enters and comes back.
        const float k = static_cast<float>(-std::log(0.7) / 3);
        const Surface plate = make_surface(under_glass(leaf, 0.01f, k), 3, SampledSpectrum(), 1, cache);
        for (const double z : {1.0, 0.8, 0.5}) {
            const double inside = std::sqrt(1 - (1 - z * z) / (1.52 * 1.52));
            const SampledSpectrum entered = metal_under_glass(
                metal, 1.52, inside, SampledSpectrum(static_cast<float>(std::pow(0.7, 1 / inside))));
            const double face = dielectric_reflectance(z, 1.52);
            const SampledSpectrum seen = returned_by_samples(plate, direction(z, 1));
            for (int b = 0; b < kBandCount; ++b)
                EXPECT_NEAR(seen[b], face + (1 - face) * entered[b], 0.012) << z << ' ' << b;
        }
    }
}

TEST(Leaf, IsReciprocal) {
    InterfaceTables cache;
    std::mt19937 engine(5);
    const auto uniform = [&] { return static_cast<float>(engine() >> 8) / 16777216.f; };
    for (const Material& m : {gilded(Leaf::gold, 0.1f), gilded(Leaf::silver, 0.7f),
                              under_glass(Leaf::gold, 0.2f, .1f), under_glass(Leaf::gold, 0.1f, .1f, .1f)}) {
        const Surface s = make_surface(m, 3, SampledSpectrum(), 1, cache);
        constexpr int kCount = 4000;
        for (int i = 0; i < kCount; ++i) {
            const glm::vec3 a = cosine_direction({uniform(), uniform()}),
                            b = cosine_direction({uniform(), uniform()});
            const Lobes there = evaluate(SurfaceLanes(s, a), b), back = evaluate(SurfaceLanes(s, b), a);
            for (int k = 0; k < kBandCount; k += 5)
                EXPECT_NEAR(there.base[k] / b.z, back.base[k] / a.z, 1e-4f * there.base[k] / b.z + 1e-6f);
        }
    }
}

// Gold is warm: reflectance rises from blue to red, bare and under glass; silver stays near neutral.
TEST(Leaf, ColourOfGoldAndSilver) {
    InterfaceTables cache;
    const Material& clear = *find_stock("clear");
    Material m = clear;
    m.leaf = Leaf::gold;
    const SampledSpectrum gold = directional_albedo(make_surface(m, 3, SampledSpectrum(), 1, cache), 0.9f);
    m.leaf = Leaf::silver;
    const SampledSpectrum silver = directional_albedo(make_surface(m, 3, SampledSpectrum(), 1, cache), 0.9f);
    EXPECT_GT(gold[13], 2 * gold[2]);
    EXPECT_GT(gold[13], 0.85f);
    EXPECT_LT(gold[2], 0.45f);
    EXPECT_GT(min_value(silver), 0.75f);
    EXPECT_LT(max_value(silver) / min_value(silver), 1.15f);
    m.leaf_depth_mm = 0.5f;  // thin cover glass takes less
    const SampledSpectrum thin = directional_albedo(make_surface(m, 3, SampledSpectrum(), 1, cache), 0.9f);
    for (int b = 0; b < kBandCount; ++b) EXPECT_GT(thin[b], silver[b]);
}

// Ever more milk over leaf tends to what the same milk shows over a matte backing of the metal's reflectance.
TEST(Leaf, MilkHidesTheMirror) {
    InterfaceTables cache;
    Material milky = under_glass(Leaf::gold, 0.08f, 0.02f, 1);
    const Surface s = make_surface(milky, 6, SampledSpectrum(), 1, cache);
    EXPECT_LT(s.leaf.clear, 1e-6f);
    milky.leaf = Leaf::none;
    const Surface matte = make_surface(milky, 6, metal_diffuse(metal_index(Leaf::gold), 1.52), 1, cache);
    for (const float z : {0.3f, 0.9f}) {
        const SampledSpectrum a = directional_albedo(s, z), b = directional_albedo(matte, z);
        for (int k = 0; k < kBandCount; ++k) EXPECT_NEAR(a[k], b[k], 0.03f) << z;
    }
}

TEST(Leaf, NeverReturnsMoreThanArrives) {
    InterfaceTables cache;
    for (const Leaf leaf : {Leaf::gold, Leaf::silver})
        for (const float roughness : {0.01f, 0.1f, 0.5f, 1.0f})
            for (const float scattering : {0.0f, 0.01f, 0.5f})
                for (const bool bare : {false, true}) {
                    const Material m =
                        bare ? gilded(leaf, roughness) : under_glass(leaf, roughness, 0, scattering);
                    const Surface s = make_surface(m, 4, SampledSpectrum(), 1, cache);
                    for (const float z : {0.02f, 0.2f, 0.6f, 1.0f}) {
                        const SampledSpectrum albedo = directional_albedo(s, z);
                        EXPECT_LE(max_value(albedo), 1 + 1e-3f);
                        EXPECT_GT(min_value(albedo), 0);
                    }
                }
}

TEST(Leaf, RefusesNonsense) {
    InterfaceTables cache;
    EXPECT_THROW(make_surface(gilded(Leaf::gold, 0), 3, SampledSpectrum(), 1, cache), std::invalid_argument);
    EXPECT_THROW(make_surface(gilded(Leaf::gold, 1.5f), 3, SampledSpectrum(), 1, cache),
                 std::invalid_argument);
    EXPECT_THROW(make_surface(under_glass(Leaf::gold, 0.1f, -1), 3, SampledSpectrum(), 1, cache),
                 std::invalid_argument);
    EXPECT_THROW(make_leaf_table(nullptr, 0), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
