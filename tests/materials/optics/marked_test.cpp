// Surfaces of a marked material against its plain ones.
#include "materials/optics/marked.h"

#include <gtest/gtest.h>

#include "materials/stock/stock.h"

namespace rakelight {
namespace {

Strands streaks_of(const Material& other, float share) {
    Strands s{.form = Strand::streak, .share = share, .size_mm = 7, .length_mm = 60};
    s.absorption_per_mm = other.absorption_per_mm;
    s.scattering_per_mm = other.scattering_per_mm;
    s.reflectance = other.reflectance;
    return s;
}

// A colour melted into itself stays what it is.
TEST(Marked, StreaksOfTheSameGlassChangeNothing) {
    for (const char* name : {"aqua", "sky", "limestone"}) {
        const Material plain = *find_stock(name);
        Material marked = plain;
        marked.markings.strands.push_back(streaks_of(plain, 0.4f));
        InterfaceTables cache;
        const Surface a = make_surface(plain, 6, SampledSpectrum(0.5f), 1, cache);
        const Surface b = make_surface(marked, 6, SampledSpectrum(0.5f), 1, cache);
        for (const float z : {0.2f, 0.6f, 1.f})
            for (int band = 0; band < kBandCount; ++band)
                EXPECT_NEAR(directional_albedo(a, z)[band], directional_albedo(b, z)[band], 2e-3);
    }
}

// The mean of all looks is what it stands for.
TEST(Marked, AQuickMeanIsNearTheMean) {
    Material glass = *find_stock("deep-teal");
    glass.markings.strands.push_back(streaks_of(*find_stock("opal"), 0.25f));
    Material opaque = *find_stock("sky");
    opaque.markings.strands.push_back(streaks_of(*find_stock("foam-white"), 0.3f));
    for (const Material& m : {glass, opaque}) {
        InterfaceTables cache;
        const SampledSpectrum mean = directional_albedo(make_surface(m, 4, SampledSpectrum(0.6f), 1, cache),
                                                        1.f),
                              quick = directional_albedo(
                                  quick_mean_of_looks(m, 4, SampledSpectrum(0.6f), 1, cache), 1.f);
        Material plain = m;
        plain.markings = {};
        const SampledSpectrum without =
            directional_albedo(make_surface(plain, 4, SampledSpectrum(0.6f), 1, cache), 1.f);
        for (int band = 0; band < kBandCount; ++band)
            EXPECT_NEAR(quick[band], mean[band], 0.35f * std::abs(mean[band] - without[band]) + 2e-3f)
                << band;
    }
}

// Brute force: the mean of what an eye sees at places of a large face, each with the albedo of its own look.
TEST(Marked, TheMeanSurfaceIsTheMeanOfThePlaces) {
    Material glass = *find_stock("deep-teal");
    glass.markings.strands.push_back(streaks_of(*find_stock("opal"), 0.25f));
    glass.markings.strands.push_back({.form = Strand::cloud, .share = 0.5f, .haze = 0.08f});
    glass.markings.seeds = {0.8f, 5};
    Material opaque = *find_stock("sky");
    opaque.markings.strands.push_back(streaks_of(*find_stock("foam-white"), 0.3f));
    for (const Material& m : {glass, opaque}) {
        InterfaceTables cache;
        const auto looks = surfaces_of_looks(m, 4, SampledSpectrum(0.6f), 1, cache);
        const Marks marks = marks_of(m);
        ASSERT_EQ(looks.size(), static_cast<std::size_t>(marks.looks()));
        std::vector<SampledSpectrum> albedo;
        for (const Surface& look : looks) albedo.push_back(directional_albedo(look, 1.f));
        SampledSpectrum sum;
        constexpr int kSide = 150;
        for (int y = 0; y < kSide; ++y)
            for (int x = 0; x < kSide; ++x) {
                const MarkedPlace p{
                    .at_mm = {31.3f * static_cast<float>(x), 17.7f * static_cast<float>(y), 3},
                    .seed = static_cast<std::uint32_t>(x + 1000 * y)};
                sum += albedo[static_cast<std::size_t>(look_at(marks, p).step)];
            }
        const SampledSpectrum mean =
            directional_albedo(make_surface(m, 4, SampledSpectrum(0.6f), 1, cache), 1.f);
        for (int band = 0; band < kBandCount; ++band)
            EXPECT_NEAR(sum[band] / (kSide * kSide), mean[band], 0.006) << m.name << " " << band;
    }
}

TEST(Marked, AMaterialWithoutMarkingsHasOneLook) {
    EXPECT_FALSE(has_looks(*find_stock("aqua")));
    EXPECT_FALSE(find_stock("aqua")->markings.any());
}

}  // namespace
}  // namespace rakelight
