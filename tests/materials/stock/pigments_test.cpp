#include "materials/stock/pigments.h"

#include <gtest/gtest.h>

#include <set>

namespace rakelight {
namespace {

TEST(Pigments, EveryRowIsWhole) {
    const std::vector<std::string> names = pigment_names();
    EXPECT_EQ(std::set(names.begin(), names.end()).size(), names.size());
    for (const Pigment& p : pigments()) {
        EXPECT_EQ(find_pigment(p.name)->name, p.name);
        EXPECT_EQ(p.provenance, Provenance::invented) << p.name;
        EXPECT_GT(min_value(p.absorption_m2_per_g), 0) << p.name;
        EXPECT_GT(min_value(p.scattering_m2_per_g), 0) << p.name;
        EXPECT_GT(p.density_g_per_cm3, 1) << p.name;
        EXPECT_LT(p.density_g_per_cm3, 7) << p.name;
        EXPECT_GT(p.cement_limit, 0) << p.name;
        EXPECT_LE(p.cement_limit, kCementTotalLimit) << p.name;
        EXPECT_LE(p.epoxy_limit, kEpoxyTotalLimit) << p.name;
        EXPECT_FALSE(p.cement_limit_source.empty() || p.epoxy_limit_source.empty()) << p.name;
    }
    EXPECT_EQ(find_pigment("PB99"), nullptr);
}

// The Colour Index letters say the hue: where a masstone takes least, against what scatters.
TEST(Pigments, HueIsThatOfTheName) {
    const auto least_taken_nm = [](const char* name) {
        const SampledSpectrum& k = find_pigment(name)->absorption_m2_per_g;
        int least = 0;
        for (int b = 1; b < kBandCount; ++b)
            if (k[b] < k[least]) least = b;
        return band_wavelength_nm(least);
    };
    for (const char* blue : {"PB28", "PB29", "PB27"}) {
        EXPECT_GE(least_taken_nm(blue), 440) << blue;
        EXPECT_LE(least_taken_nm(blue), 490) << blue;
    }
    for (const char* green : {"PG17", "PG18", "PG7"}) {
        EXPECT_GE(least_taken_nm(green), 495) << green;
        EXPECT_LE(least_taken_nm(green), 565) << green;
    }
    EXPECT_GE(least_taken_nm("PR101"), 620);
    EXPECT_GE(least_taken_nm("PY42"), 570);
}

}  // namespace
}  // namespace rakelight
