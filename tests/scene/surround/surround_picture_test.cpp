// Which way is which in a picture all round, its bright spots, its patches.
#include "scene/surround/surround_picture.h"

#include <gtest/gtest.h>

#include "scene/surround/bright_spots.h"
#include "scene/surround/rectangles.h"
#include "tests/support/surround_samples.h"

using namespace rakelight;

TEST(SurroundPicture, MiddleIsAheadAndRightIsRight) {
    SurroundPicture p;
    p.width_px = 64, p.height_px = 32;
    const auto near = [](const glm::vec3& a, const glm::vec3& b) { return glm::distance(a, b) < 1e-5f; };
    EXPECT_TRUE(near(direction_of(p, 0, 32), {0, 0, 1}));
    EXPECT_TRUE(near(direction_of(p, 0, 48), {-1, 0, 0}));  // to the right of who looks along z with y up
    EXPECT_TRUE(near(direction_of(p, 1, 5), {0, 1, 0}));
    EXPECT_TRUE(near(direction_of(p, 0, 0), {0, 0, -1}));
    double all = 0;
    for (int y = 0; y < p.height_px; ++y) all += p.width_px * pixel_sr(p, y);
    EXPECT_NEAR(all, 4 * std::numbers::pi, 1e-9);
    for (std::uint32_t i = 0; i < 64 * 32; ++i)
        EXPECT_EQ(pixel_towards(p, pixel_direction(p, static_cast<int>(i % 64), static_cast<int>(i / 64))),
                  i);
}

// Two lamps, one of them over the edge of the picture, and a bright window too large for a lamp.
TEST(BrightSpots, AreSmallAndFarBrighter) {
    SurroundPicture p = even_surround(128, glm::vec3(1));
    const auto fill = [&](int left, int top, int columns, int rows, float light) {
        for (int y = top; y < top + rows; ++y)
            for (int x = left; x < left + columns; ++x)
                p.rgb[static_cast<std::size_t>(y) * p.width_px + (x + p.width_px) % p.width_px] =
                    glm::vec3(light);
    };
    fill(-2, 60, 4, 3, 4000);
    fill(100, 40, 2, 2, 3000);
    fill(150, 50, 30, 30, 40);  // about 0.5 sr
    const auto spots = bright_spots(p);
    ASSERT_EQ(spots.size(), 2u);
    EXPECT_EQ(spots[0].size(), 12u);
    EXPECT_EQ(spots[1].size(), 4u);
    EXPECT_TRUE(bright_spots(even_surround(32, glm::vec3(2))).empty());

    const AllRound all(p);
    const SurroundPatch& first = all.patches()[0];
    EXPECT_TRUE(first.spot);
    EXPECT_EQ(first.left, 254);
    EXPECT_EQ(first.columns, 4);
    EXPECT_NEAR(first.direction.z, -1, 2e-3);
    double sr = 0, flux = 0;
    for (const SurroundPatch& patch : all.patches()) sr += patch.solid_angle_sr, flux += patch.flux;
    EXPECT_NEAR(sr, 4 * std::numbers::pi, 1e-6);
    double wanted = 0;
    for (std::size_t i = 0; i < p.rgb.size(); ++i)
        wanted += double(luminance_of(p.rgb[i])) * pixel_sr(p, static_cast<int>(i) / p.width_px);
    EXPECT_NEAR(flux, wanted, 1e-6 * wanted);
    EXPECT_LE(all.patches().size(), 48u);
}

TEST(Rectangles, CoverThePictureAndAreSmallWhereLightIs) {
    const SurroundPicture p = surround_of(
        64, [](const glm::vec3& d) { return glm::vec3(d.x > 0.5f && d.y > 0.2f ? 50.0f : 1.0f); });
    std::vector<int> times(p.rgb.size());
    int smallest = 1 << 30;
    for (const SurroundRectangle& r : rectangles(
             p, [](std::size_t) { return true; }, 24)) {
        for (int y = r.top; y < r.top + r.rows; ++y)
            for (int x = r.left; x < r.left + r.columns; ++x) ++times[static_cast<std::size_t>(y) * 128 + x];
        smallest = std::min(smallest, r.columns * r.rows);
    }
    for (const int t : times) ASSERT_EQ(t, 1);
    EXPECT_LT(smallest, 64 * 128 / 24);
}
