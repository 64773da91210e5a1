// Figures of glare on a panel, from films made by hand whose answers can be counted.
#include "output/panel_glare.h"

#include <gtest/gtest.h>

#include <cmath>

#include "output/seen_patches.h"

namespace rakelight {
namespace {

constexpr int kSide = 200;

// A panel of two fields side by side, seen square on over 20 degrees: left of body 10 cd/m2, right of 2.
struct Panel {
    Film film;
    Camera camera;
    Panel() {
        Viewpoint view;
        view.eye_mm = {0, 0, 1000};
        view.view_width_mm = 2000 * std::tan(10 * 3.14159265358979 / 180);
        camera = make_camera(view, kSide, kSide, {0, 0, 0});
        film.width = film.height = kSide;
        film.groups = {"spot", "window"};
        film.xyz.assign(2, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(0)));
        film.features.piece.assign(film.pixel_count(), 0);
        film.features.first_surface_share.assign(film.pixel_count(), 0);
        for (int y = 0; y < kSide; ++y)
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
    EXPECT_EQ(glare.hot_share, 0);
    EXPECT_TRUE(glare.patches.empty());
    ASSERT_EQ(glare.fields.size(), 2u);
    EXPECT_EQ(glare.fields[0].field, 4u);
    EXPECT_NEAR(glare.fields[0].body_cd_per_m2, 10, 1e-5);
    EXPECT_NEAR(glare.fields[1].veil(), 1, 1e-6);
}

// A pixel is a tenth of a degree: 20 pixels square are 400 pixels, a disc of 2 sqrt(400 / pi) tenths.
TEST(PanelGlare, MeasuresAPatchAndNamesItsLamp) {
    Panel panel;
    panel.mirror(0, 30, 30, 1, 600);       // a spark, 60 times its body
    panel.mirror(1, 90 + 30, 90, 20, 60);  // the window in the dark glass: 30 times
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 2u);
    EXPECT_NEAR(glare.patches[0].size_deg, 0.1 * 2 * std::sqrt(400 / 3.14159265358979), 0.05);
    EXPECT_EQ(panel.film.groups[glare.patches[0].group], "window");
    EXPECT_NEAR(glare.patches[0].cd_per_m2, 60, 0.01);
    EXPECT_NEAR(glare.patches[0].pixel.x, 130, 0.1);
    EXPECT_NEAR(glare.patches[0].pixel.y, 100, 0.1);
    EXPECT_EQ(glare.patches[0].piece, 2);
    EXPECT_EQ(panel.film.groups[glare.patches[1].group], "spot");
    EXPECT_NEAR(glare.hot_share, 401.0 / 40000, 3e-4);
    EXPECT_NEAR(glare.blinding_share, 1.0 / 40000, 3e-6);
    EXPECT_NEAR(glare.sparks_per_m2, 1 / 0.5, 1e-9);
}

// Glints of neighbouring pieces, parted by joints, are one patch to an eye; one that stands alone is another.
TEST(PanelGlare, GlintsCloseTogetherAreOnePatch) {
    Panel panel;
    for (int y = 40; y < 70; y += 4)
        for (int x = 20; x < 60; x += 4) panel.mirror(1, x, y, 2, 900);  // gaps of 0.2 degrees
    panel.mirror(0, 80, 150, 2, 900);
    const PanelGlare glare = panel.glare();
    ASSERT_EQ(glare.patches.size(), 2u);
    // From 20 to 58 and from 40 to 70 pixels of a tenth of a degree.
    EXPECT_NEAR(glare.patches[0].size_deg, 0.1 * 2 * std::sqrt(38 * 30 / 3.14159265358979), 0.1);
    EXPECT_NEAR(glare.patches[1].size_deg, 0.1 * 2 * std::sqrt(4 / 3.14159265358979), 0.01);
    EXPECT_EQ(panel.film.groups[glare.marks[0].group], "window");
    EXPECT_EQ(panel.film.groups[glare.marks[1].group], "spot");
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
    EXPECT_NEAR(glare.marks[0].size_deg, 0.1 * 2 * std::sqrt(200 / 3.14159265358979), 0.03);
}

// The same flash, as one pixel of a coarse film or as a sixteenth of it in a film four times as fine.
TEST(PanelGlare, SparksDoNotDependOnHowFineTheFilmIs) {
    const auto sparks = [](int side, float cd_per_m2) {
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
            .sparks_per_m2;
    };
    // A pixel of a tenth of a degree is 3.05e-6 sr; a flash before 3 cd/m2 needs
    // 100 * 0.242e-6 (1 + sqrt(1.2))^2 = 1.06e-4 lux, from such a pixel 35 cd/m2.
    EXPECT_NEAR(sparks(200, 60), 8, 1e-9);
    EXPECT_NEAR(sparks(800, 16 * 60), 8, 1e-9);
    EXPECT_NEAR(sparks(200, 31), 0, 1e-9);  // over ten times the body, but not enough light
    EXPECT_NEAR(sparks(800, 16 * 31), 0, 1e-9);
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
    EXPECT_TRUE(glare.patches.empty());  // 1.5 times the body is a veil, not glare
}

TEST(PanelGlare, LimitsAreTheCallers) {
    Panel panel;
    panel.mirror(0, 150, 50, 10, 60);
    EXPECT_EQ(panel.glare({.hot = 40}).patches.size(), 0u);
    EXPECT_GT(panel.glare({.hot = 5, .blinding = 20}).blinding_share, 0);
}

// In near-black glass a faint image is not a blinding one: the eye is adapted to the panel.
TEST(PanelGlare, BlackGlassIsJudgedByTheWholePanel) {
    Panel panel;
    for (int y = 0; y < kSide; ++y)
        for (int x = kSide / 2; x < kSide; ++x) panel.film.xyz[0][Panel::at(x, y)] = glm::vec3(0.001f);
    panel.mirror(1, 150, 50, 10, 1);
    EXPECT_TRUE(panel.glare().patches.empty());  // 1 over a twentieth of 5: 4 times
    panel.mirror(1, 150, 150, 10, 4);
    EXPECT_EQ(panel.glare().patches.size(), 1u);
}

TEST(PanelGlare, NothingSeenIsNothingCounted) {
    Panel panel;
    panel.film.features.piece.assign(panel.film.pixel_count(), 0);
    EXPECT_EQ(panel.glare().hot_share, 0);
    EXPECT_TRUE(panel.glare().fields.empty());
}

}  // namespace
}  // namespace rakelight
