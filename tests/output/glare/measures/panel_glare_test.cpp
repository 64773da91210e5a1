// Figures of glare on a panel, from films made by hand whose answers can be counted.
#include "output/glare/measures/panel_glare.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "output/glare/measures/seen_patches.h"

namespace rakelight {
namespace {

constexpr int kSide = 200;  // pixels, if not said otherwise

// A panel of two fields side by side, seen square on over 20 degrees: left of body 10 cd/m2, right of 2.
struct Panel {
    Film film;
    Camera camera;
    explicit Panel(int high = kSide) {
        Viewpoint view;
        view.eye_mm = {0, 0, 1000};
        view.view_width_mm = 2000 * std::tan(10 * 3.14159265358979 / 180);
        camera = make_camera(view, kSide, high, {0, 0, 0});
        film.width = kSide;
        film.height = high;
        film.groups = {"spot", "window"};
        film.xyz.assign(2, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(0)));
        film.features.piece.assign(film.pixel_count(), 0);
        film.features.first_surface_share.assign(film.pixel_count(), 0);
        for (int y = 0; y < high; ++y)
            for (int x = 0; x < kSide; ++x) {
                film.features.piece[at(x, y)] = x < kSide / 2 ? 1 : 2;
                film.xyz[0][at(x, y)] = glm::vec3(x < kSide / 2 ? 10 : 2);
            }
    }
    static std::size_t at(int x, int y) { return static_cast<std::size_t>(y * kSide + x); }
    // Mirrors `cd_per_m2` of a lamp's group over a square.
    void mirror(int group, int x0, int y0, int side, float cd_per_m2) {
        for (int y = y0; y < y0 + side; ++y)
            for (int x = x0; x < x0 + side; ++x) {
                const float body = film.xyz[0][at(x, y)].y;
                film.xyz[static_cast<std::size_t>(group)][at(x, y)] += glm::vec3(cd_per_m2);
                film.features.first_surface_share[at(x, y)] = cd_per_m2 / (cd_per_m2 + body);
            }
    }
    PanelGlare glare(const GlareLimits& limits = {}) const {
        return panel_glare(film, seen_patches(film, camera), {4, 7}, 0.5, limits);
    }
};

TEST(PanelGlare, AMattePanelHasNone) {
    const PanelGlare glare = Panel().glare();
    EXPECT_EQ(glare.bright_share, 0);
    EXPECT_TRUE(glare.patches.empty());
    ASSERT_EQ(glare.fields.size(), 2u);
    EXPECT_EQ(glare.fields[0].field, 4u);
    EXPECT_NEAR(glare.fields[0].body_cd_per_m2, 10, 1e-5);
    EXPECT_NEAR(glare.fields[1].veil(), 1, 1e-6);
}

// Diameter of the disc as large as so many pixels of a tenth of a degree.
double disc_deg(double pixels) {
    return 0.1 * 2 * std::sqrt(pixels / 3.14159265358979);
}

TEST(PanelGlare, MeasuresAPatchAndNamesItsLamp) {
    Panel panel;
    panel.mirror(0, 30, 30, 1, 600);       // a sparkle, 60 times its body
    panel.mirror(1, 90 + 30, 90, 20, 60);  // the window in the dark glass: 30 times
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 2u);
    EXPECT_NEAR(glare.patches[0].size_deg, disc_deg(400), 0.06);
    EXPECT_EQ(panel.film.groups[glare.patches[0].group], "window");
    EXPECT_NEAR(glare.patches[0].times, 30, 0.1);
    EXPECT_NEAR(glare.patches[0].cd_per_m2, 60, 3);
    EXPECT_NEAR(glare.patches[0].pixel.x, 130, 0.1);
    EXPECT_NEAR(glare.patches[0].pixel.y, 100, 0.1);
    EXPECT_EQ(glare.patches[0].piece, 2);
    EXPECT_EQ(panel.film.groups[glare.patches[1].group], "spot");
    EXPECT_LT(glare.patches[1].size_deg, 0.5);
    EXPECT_NEAR(glare.bright_share, 401.0 / 40000, 3e-4);
    EXPECT_NEAR(glare.dazzling_share, 1.0 / 40000, 3e-6);
    EXPECT_NEAR(glare.sparkles_per_m2, 1 / 0.5, 1e-9);
}

TEST(PanelGlare, MeasuresAlikeInAnOddNumberOfRows) {
    Panel panel(kSide - 1);
    panel.mirror(1, 90 + 30, 90, 20, 60);
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 1u);
    EXPECT_NEAR(glare.patches[0].size_deg, disc_deg(400), 0.06);
}

// What half a degree of averaging adds or takes at an edge is known, so a lamp is as wide as it is, however
// strong it is mirrored.
TEST(PanelGlare, SizeDoesNotDependOnStrength) {
    for (const float times : {1.5f, 3.0f, 10.0f, 100.0f, 10000.0f}) {
        Panel panel;
        panel.mirror(1, 120, 80, 40, 2 * times);
        const PanelGlare glare = panel.glare();
        ASSERT_EQ(glare.patches.size(), 1u) << times;
        EXPECT_NEAR(glare.patches[0].size_deg, disc_deg(1600), 0.03 * disc_deg(1600)) << times;
        EXPECT_NEAR(glare.patches[0].times, times, 0.01 * times);
    }
}

// Light as one pixel in 25, each with 25 times as much: an eye that takes half a degree together, five pixels
// each way, sees one patch.
TEST(PanelGlare, GlintsCloseTogetherAreOnePatch) {
    Panel panel;
    for (int y = 42; y < 70; y += 5)
        for (int x = 22; x < 60; x += 5) panel.mirror(1, x, y, 1, 900);
    panel.mirror(0, 80, 150, 2, 900);
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 2u);
    EXPECT_NEAR(glare.patches[0].size_deg, disc_deg(40 * 30), 0.25);
    EXPECT_NEAR(glare.patches[0].times, 900 / 25 / 10.0, 0.01);
    EXPECT_LT(glare.patches[1].size_deg, 0.5);
    EXPECT_EQ(panel.film.groups[glare.marks[0].group], "window");
    EXPECT_EQ(panel.film.groups[glare.marks[1].group], "spot");
}

// Glints here and there that together are a tenth of the panel's light are no patch, though each is hot.
TEST(PanelGlare, ScatteredGlintsAreNone) {
    Panel panel;
    for (int y = 5; y < kSide; y += 10)
        for (int x = 5; x < kSide / 2; x += 10) panel.mirror(0, x, y, 1, 150);
    const PanelGlare glare = panel.glare();
    EXPECT_NEAR(glare.bright_share, 0.005, 2e-4);
    EXPECT_TRUE(glare.patches.empty());  // 150 / 25 over 10
}

// Where the mean only just passes the limit over a pixel or two, there is nothing to point at.
TEST(PanelGlare, TouchingTheLimitIsNoPatch) {
    Panel panel, clear;
    panel.mirror(1, 30, 30, 5, 10.1f);  // 1.01 times in the one window of half a degree that holds it all
    EXPECT_TRUE(panel.glare().patches.empty());
    clear.mirror(1, 30, 30, 5, 30);
    EXPECT_EQ(clear.glare().patches.size(), 1u);
}

// A lamp that outshines the panel nowhere is marked where it comes nearest, if anyone would mind it there.
TEST(PanelGlare, AWeakLampHasOneMark) {
    Panel panel;
    panel.mirror(0, 20, 20, 20, 7);
    panel.mirror(0, 20, 120, 20, 8);
    panel.mirror(1, 60, 60, 20, 4);  // less than half its body
    const PanelGlare glare = panel.glare();
    EXPECT_TRUE(glare.patches.empty());
    ASSERT_EQ(glare.marks.size(), 1u);
    EXPECT_NEAR(glare.marks[0].times, 0.8, 0.01);
    EXPECT_NEAR(glare.marks[0].pixel.y, 130, 0.1);
}

// Noise does not change what is a patch: the same light, with that of every pixel drawn at random.
TEST(PanelGlare, NoiseIsNoPatch) {
    Panel smooth, noisy;
    smooth.mirror(1, 110, 60, 60, 6);
    std::mt19937 random(7);
    std::exponential_distribution<float> draw;
    for (int y = 0; y < kSide; ++y)
        for (int x = 0; x < kSide; ++x) {
            const bool lamp = x >= 110 && x < 170 && y >= 60 && y < 120;
            noisy.mirror(1, x, y, 1, (lamp ? 6.0f : 0.3f) * draw(random));
        }
    const PanelGlare calm = smooth.glare(), rough = noisy.glare();
    ASSERT_EQ(calm.patches.size(), 1u);
    ASSERT_EQ(rough.patches.size(), 1u);
    EXPECT_NEAR(calm.patches[0].size_deg, disc_deg(3600), 0.1);
    EXPECT_NEAR(rough.patches[0].size_deg, disc_deg(3600), 0.3);
}

// Only what the film is sure of sparkles.
TEST(PanelGlare, ASparkIsCountedLessItsError) {
    Panel panel;
    panel.mirror(0, 50, 100, 1, 300);  // before 10 cd/m2: needs 100 * 0.242e-6 * 9 lux, that is 71 cd/m2
    panel.film.error.assign(panel.film.pixel_count(), 0);
    panel.film.error[Panel::at(50, 100)] = 100;
    EXPECT_NEAR(panel.glare().sparkles_per_m2, 1 / 0.5, 1e-9);
    panel.film.error[Panel::at(50, 100)] = 250;
    EXPECT_EQ(panel.glare().sparkles_per_m2, 0);
}

// Two lamps mirrored in one place are two marks, each as large as itself.
TEST(PanelGlare, EveryLampHasItsOwnMark) {
    Panel panel;
    panel.mirror(1, 20, 20, 20, 300);
    panel.film.mirrored.assign(2, std::vector<float>(panel.film.pixel_count(), 0.0f));
    for (int y = 20; y < 40; ++y)
        for (int x = 20; x < 40; ++x) {
            panel.film.mirrored[1][Panel::at(x, y)] = x < 30 ? 300 : 0;
            panel.film.mirrored[0][Panel::at(x, y)] = x < 30 ? 0 : 300;
        }
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 1u);
    ASSERT_EQ(glare.marks.size(), 2u);
    EXPECT_NE(glare.marks[0].group, glare.marks[1].group);
    EXPECT_NEAR(glare.marks[0].size_deg, disc_deg(200), 0.1);
}

// The same flash, as one pixel of a coarse film or as a sixteenth of it in a film four times as fine.
TEST(PanelGlare, SparksDoNotDependOnHowFineTheFilmIs) {
    const auto sparkles = [](int side, float cd_per_m2) {
        Viewpoint view;
        view.eye_mm = {0, 0, 1000};
        view.view_width_mm = 2000 * std::tan(10 * 3.14159265358979 / 180);
        Film film;
        film.width = film.height = side;
        film.groups = {"spot"};
        film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(3)));
        film.features.piece.assign(film.pixel_count(), 0);
        film.features.first_surface_share.assign(film.pixel_count(), 0);
        for (int y = 0; y < side; ++y)
            for (int x = 0; x < side; ++x)
                film.features.piece[static_cast<std::size_t>(y * side + x)] =
                    1 + (4 * x / side) + 4 * (4 * y / side);
        for (const int piece : {0, 5, 10, 15}) {
            const int x = (piece % 4) * side / 4 + side / 8, y = (piece / 4) * side / 4 + side / 8;
            const auto i = static_cast<std::size_t>(y * side + x);
            film.xyz[0][i] += glm::vec3(cd_per_m2);
            film.features.first_surface_share[i] = cd_per_m2 / (cd_per_m2 + 3);
        }
        const Camera camera = make_camera(view, side, side, {0, 0, 0});
        return panel_glare(film, seen_patches(film, camera), std::vector<std::uint32_t>(16, 0), 0.5)
            .sparkles_per_m2;
    };
    // A pixel of a tenth of a degree is 3.05e-6 sr; a flash before 3 cd/m2 needs
    // 100 * 0.242e-6 (1 + sqrt(1.2))^2 = 1.06e-4 lux, from such a pixel 35 cd/m2, and a little more since the
    // degree round it has its share of it.
    EXPECT_NEAR(sparkles(200, 60), 8, 1e-9);
    EXPECT_NEAR(sparkles(800, 16 * 60), 8, 1e-9);
    EXPECT_NEAR(sparkles(200, 31), 0, 1e-9);  // hot, but not enough light
    EXPECT_NEAR(sparkles(800, 16 * 31), 0, 1e-9);
}

// Every tenfold beyond what nobody minds counts as much: 100 for a panel that mirrors ten times that.
TEST(PanelGlare, ScoreCountsTens) {
    Panel panel;
    panel.mirror(1, 0, 0, 100, 50);  // five times a body of 10: ten times the half that is not minded
    EXPECT_NEAR(panel.glare().score, 25, 0.2);
    Panel calm;
    calm.mirror(1, 0, 0, 80, 4);  // and not so near the dark field that its body is taken for darker
    EXPECT_EQ(calm.glare().score, 0);
}

TEST(PanelGlare, VeilIsMirroredOverBody) {
    Panel panel;
    panel.mirror(1, 100, 0, 100, 3);
    const PanelGlare glare = panel.glare();
    // Half of the right field mirrors 3 over a body of 2: in the mean 1.5 over 2.
    EXPECT_NEAR(glare.fields[1].veil(), 1 + 1.5 / 2, 0.02);
    EXPECT_EQ(panel.film.groups[glare.fields[1].group], "window");
}

TEST(PanelGlare, LimitsAreTheCallers) {
    Panel panel;
    panel.mirror(0, 150, 50, 10, 60);
    EXPECT_EQ(panel.glare({.patch_ratio = 40}).patches.size(), 0u);
    EXPECT_EQ(panel.glare({.bright_ratio = 40}).bright_share, 0);
    EXPECT_GT(panel.glare({.bright_ratio = 5, .dazzling_ratio = 20}).dazzling_share, 0);
}

// In near-black glass a faint image is not a blinding one: the eye is adapted to the panel.
TEST(PanelGlare, BlackGlassIsJudgedByTheWholePanel) {
    Panel panel;
    for (int y = 0; y < kSide; ++y)
        for (int x = kSide / 2; x < kSide; ++x) panel.film.xyz[0][Panel::at(x, y)] = glm::vec3(0.001f);
    panel.mirror(1, 150, 50, 10, 0.2f);
    EXPECT_TRUE(panel.glare().patches.empty());  // 0.2 over a twentieth of 5: 0.8 times
    panel.mirror(1, 150, 150, 10, 0.5f);
    EXPECT_EQ(panel.glare().patches.size(), 1u);
}

TEST(PanelGlare, NothingSeenIsNothingCounted) {
    Panel panel;
    panel.film.features.piece.assign(panel.film.pixel_count(), 0);
    EXPECT_EQ(panel.glare().bright_share, 0);
    EXPECT_TRUE(panel.glare().fields.empty());
}

}  // namespace
}  // namespace rakelight
