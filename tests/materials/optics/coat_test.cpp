// Coats of thin films: energy, colour and body.
#include "materials/optics/coat.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/optics/surface_lanes.h"
#include "materials/stock/stock.h"
#include "tests/support/optics_samples.h"

namespace rakelight {
namespace {

Material coated(const char* name, std::vector<FilmLayer> layers) {
    Material m = *find_stock(name);
    m.roughness = 0.15f;
    m.coating = std::move(layers);
    return m;
}

std::vector<FilmLayer> mirror_at(double nm, int pairs) {
    std::vector<FilmLayer> layers;
    for (int i = 0; i < 2 * pairs + 1; ++i) {
        const double index = i % 2 == 0 ? 2.35 : 1.46;
        layers.push_back({index, nm / (4 * index)});
    }
    return layers;
}

// Never more light than falls in, on the whitest body, at any angle.
TEST(Coat, MakesNoLight) {
    for (const char* name : {"foam-white", "jet", "clear"})
        for (const auto& layers : {std::vector<FilmLayer>{{1.95, 380}}, mirror_at(600, 4)}) {
            InterfaceTables cache;
            Material m = coated(name, layers);
            if (m.opaque) m.reflectance = SampledSpectrum(1);
            const Surface s = make_surface(m, 3, SampledSpectrum(1), 1, cache);
            for (const float z : {0.1f, 0.3f, 0.6f, 1.f}) {
                const SampledSpectrum albedo = directional_albedo(s, z);
                for (int b = 0; b < kBandCount; ++b)
                    EXPECT_LE(albedo[b], 1.01f) << name << " " << z << " " << b;
            }
        }
}

// What is told of it is what paths meet: the lanes' BSDF summed over all directions (brute force).
TEST(Coat, ItsAlbedoIsTheSumOfWhatItScatters) {
    InterfaceTables cache;
    const Surface s = make_surface(coated("storm-grey", {{1.95, 340}}), 3, SampledSpectrum(0.f), 1, cache);
    for (const float z : {0.4f, 0.9f}) {
        const glm::vec3 out(std::sqrt(1 - z * z), 0, z);
        const SurfaceLanes lanes(s, out);
        SampledSpectrum sum;
        constexpr int kHeights = 400, kTurns = 400;
        for (int i = 0; i < kHeights; ++i)
            for (int k = 0; k < kTurns; ++k) {
                const glm::vec3 in =
                    direction((i + 0.5) / kHeights, 2 * std::numbers::pi * (k + 0.5) / kTurns);
                sum += lanes.base(0, lanes.evaluate(broadcast3(in)).base) *
                       static_cast<float>(2 * std::numbers::pi / (kHeights * kTurns));
            }
        const SampledSpectrum told = directional_albedo(s, out);
        for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(sum[b], told[b], 0.02 * told[b] + 0.003);
    }
}

// A dichroic coat mirrors one colour and lets its complement through to a white body and back.
TEST(Coat, DichroicGlassPassesWhatItDoesNotMirror) {
    const Material m = coated("foam-white", mirror_at(600, 4));
    InterfaceTables cache;
    const Surface s = make_surface(m, 3, SampledSpectrum(0.f), 1, cache);
    const int red = (600 - kFirstBand_nm) / kBandStep_nm, blue = (440 - kFirstBand_nm) / kBandStep_nm;
    EXPECT_GT(coat_reflectance(m, 1)[red], 0.9f);
    EXPECT_LT(coat_reflectance(m, 1)[blue], 0.5f);
    EXPECT_LT(s.among[red], 0.25f * s.among[blue]);
}

// A film of the glass's own index is no film: Fresnel's share comes back, and the body as under a plain face
// (Saunderson), to what the tables hold.
TEST(Coat, AFilmOfTheSameGlassIsAPlainFace) {
    InterfaceTables cache;
    const Material plain = coated("celadon", {});
    Material m = plain;
    m.coating = {{static_cast<double>(m.index), 200}};
    const Surface a = make_surface(plain, 3, SampledSpectrum(0.f), 1, cache);
    const Surface b = make_surface(m, 3, SampledSpectrum(0.f), 1, cache);
    for (const float z : {0.5f, 1.f})
        for (int band = 0; band < kBandCount; ++band)
            EXPECT_NEAR(directional_albedo(a, z)[band], directional_albedo(b, z)[band], 0.02);
}

}  // namespace
}  // namespace rakelight
