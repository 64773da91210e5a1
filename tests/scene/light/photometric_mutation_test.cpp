// A photometric file that was damaged at random ends in a lamp with sound figures or in a LayoutError.
#include <gtest/gtest.h>

#include <iterator>
#include <string_view>

#include "scene/light/photometric_file.h"
#include "tests/support/damage.h"
#include "tests/support/photometric_samples.h"

namespace rakelight {
namespace {

constexpr std::string_view kScraps[] = {
    "[",   "]",   "TILT=", "INCLUDE", "NONE", "-",      "-1",   ".",      "e",  "1e308",  "nan",
    "inf", "0",   " ",     "\n",      "\r\n", ",",      "\x1a", "\xff",   "\t", "360",    "90",
    "-90", "180", "1000",  "1 1 1",   "3",    "[MORE]", "0 90", "1e-300", "+5", "IESNA91"};

}  // namespace

TEST(PhotometricMutation, OnlyLayoutErrorsEscape) {
    const auto candela = [](double v, double h) { return 100 + v + h / 10; };
    const std::string samples[] = {
        FileMaker{.tilt = "TILT=INCLUDE\n1\n2\n0 90\n1 0.8",
                  .opening = "0.3 0.6 0.1",
                  .vertical = angles(0, 90, 15),
                  .horizontal = angles(0, 180, 45)}
            .text(candela),
        FileMaker{.version = "IESNA:LM-63-1995",
                  .type = 2,
                  .opening = "-0.2 0 0",
                  .vertical = angles(-90, 90, 30),
                  .horizontal = angles(0, 90, 30)}
            .text([](double, double h) { return 90 - h; }),
        FileMaker{.version = "", .vertical = angles(0, 180, 30), .horizontal = {0}}.text(candela)};
    Rng rng(63);
    const auto [read, refused] = read_damaged(
        9000, [&](int round) { return damaged(samples[round % 3], kScraps, rng); },
        [&](const std::string& text) {
            const PhotometricFile file = read_photometric_text(text, "damaged.ies", "/nowhere");
            ASSERT_TRUE(std::isfinite(file.lumens) && file.lumens > 0) << text;
            ASSERT_EQ(file.intensity.candela.size(),
                      file.intensity.round_deg.size() * file.intensity.polar_deg.size());
            for (int i = 0; i < 12; ++i) {
                const double z = rng.within(-1, 1), turn = rng.within(0, 360), r = std::sqrt(1 - z * z);
                const float cd = file.intensity.at({r * cos_deg(turn), r * sin_deg(turn), z});
                ASSERT_TRUE(cd >= 0 && cd <= greatest_candela(file.intensity)) << text;
            }
        });
    EXPECT_GT(read, 500);
    EXPECT_GT(refused, 2000);
}

}  // namespace rakelight
