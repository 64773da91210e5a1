#include "output/study/study.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "output/print/eye_blur.h"
#include "output/system/errors.h"

namespace rakelight {
namespace {

constexpr double kLux = 300;

// 240 x 120 pixels of half a millimetre at 1 m: two fields side by side, of pieces of ten pixels without
// joints; in the right one every fifth piece is an accent. Reflectances are greys.
struct Panel {
    NotedFilm noted;
    StudiedFields laid;

    Panel(double left, double right, double accent) {
        Film& film = noted.film;
        film.width = 240, film.height = 120;
        film.rows = {0, 120};
        film.groups = {"light"};
        film.materials = {"chalk", "slate", "ruby"};
        const std::size_t n = film.pixel_count();
        film.xyz.assign(1, std::vector<glm::vec3>(n));
        film.features.depth_mm.assign(n, 1000);
        film.features.normal.assign(n, glm::vec3(0, 0, 1));
        film.features.piece.assign(n, 0);
        film.features.material.assign(n, 0);
        film.features.first_surface_share.assign(n, 0);
        noted.notes.picture = "straight";
        noted.notes.illuminance_xyz = {{0.9505 * kLux, kLux, 1.089 * kLux}};
        noted.notes.exposure_rule = "grey-card";
        noted.notes.pixel_deg = std::atan(0.5 / 1000) * 180 / std::numbers::pi;
        laid.names = {"sky", "sea"};
        laid.accents = {{}, {"ruby"}};
        for (int k = 0; k < 24 * 12; ++k) laid.field_of_piece.push_back(k % 24 < 12 ? 0 : 1);
        for (int y = 0; y < 120; ++y)
            for (int x = 0; x < 240; ++x) {
                const auto i = static_cast<std::size_t>(y * 240 + x);
                const int piece = y / 10 * 24 + x / 10;
                const bool is_left = x < 120, is_accent = !is_left && piece % 5 == 0;
                film.features.piece[i] = piece + 1;
                film.features.material[i] = is_left ? 1 : is_accent ? 3 : 2;
                const double rho = is_left ? left : is_accent ? accent : right;
                film.xyz[0][i] =
                    glm::vec3(0.9505, 1, 1.089) * static_cast<float>(rho * kLux / std::numbers::pi);
            }
    }
};

// CIE 1976: L* = 116 cbrt(Y / Yn) - 16.
double lightness(double share) {
    return 116 * std::cbrt(share) - 16;
}

TEST(Study, TonesOfFieldsAreThoseOfTheirReflectance) {
    const Panel panel(0.5, 0.1, 0.4);
    const Study study = make_study(panel.noted, panel.laid, {});
    EXPECT_NEAR(study.mm_per_px, 0.5, 1e-9);
    ASSERT_EQ(study.fields.size(), 2u);
    EXPECT_EQ(study.fields[0].pieces, 144u);
    EXPECT_NEAR(study.fields[0].mean.l, lightness(0.5), 0.01);
    EXPECT_NEAR(study.fields[0].mean.a, 0, 0.1);
    EXPECT_NEAR(study.fields[0].spread_l, 0, 1e-3);
    EXPECT_TRUE(study.fields[0].accents.empty());
    // Light adds up, lightness does not: the mean is that of the mean light.
    const FieldTone& sea = study.fields[1];
    ASSERT_EQ(sea.accents.size(), 1u);
    const double share = static_cast<double>(sea.accents[0].pieces) / static_cast<double>(sea.pieces);
    EXPECT_NEAR(share, 0.2, 0.02);
    EXPECT_NEAR(sea.mean.l, lightness(0.1 + share * 0.3), 0.01);
    EXPECT_NEAR(sea.accents[0].moves_l, lightness(0.1 + share * 0.3) - lightness(0.1), 0.01);
    const double apart = lightness(0.4) - lightness(0.1);
    EXPECT_NEAR(sea.spread_l, apart * std::sqrt(share * (1 - share)), 0.01);
}

// A piece of 5 mm is parted by an eye up to 17 m (a minute of arc); a loud accent is seen at least so far and
// never at the end of the ladder, a quiet one nowhere.
TEST(Study, AccentsAreSeenAsFarAsTheyAreLoud) {
    const auto seen_to = [](double accent) {
        const Panel panel(0.5, 0.1, accent);
        return make_study(panel.noted, panel.laid, {}).fields[1].accents[0].seen_to_m;
    };
    EXPECT_NEAR(resolve_distance_m(5), 17.2, 0.1);
    EXPECT_GE(seen_to(0.7), 12);
    EXPECT_LE(seen_to(0.7), 40);
    EXPECT_GT(seen_to(0.7), seen_to(0.13));
    EXPECT_EQ(seen_to(0.1005), 0);
}

TEST(Study, ViewsAreOfThePanelInFewGreys) {
    const Panel panel(0.5, 0.1, 0.4);
    const Study study = make_study(panel.noted, {}, {});
    ASSERT_EQ(study.views.size(), 8u);
    EXPECT_TRUE(study.fields.empty());
    EXPECT_TRUE(study.reference.empty());
    const auto greys_of = [](const Print& print) {
        std::set<float> greys;
        for (std::size_t i = 0; i < print.rgb.size(); i += 3) {
            EXPECT_EQ(print.rgb[i], print.rgb[i + 1]);
            EXPECT_EQ(print.rgb[i], print.rgb[i + 2]);
            greys.insert(print.rgb[i]);
        }
        return greys.size();
    };
    for (const StudyView& view : study.views) EXPECT_EQ(view.print.width, 240) << view.name;
    EXPECT_EQ(greys_of(study.views[2].print), 3u);
    EXPECT_EQ(greys_of(study.views[3].print), 5u);
    EXPECT_GE(study.five.front(), 0);
    EXPECT_LT(study.three[0], study.three[2]);
    // From farther off less is left of what differs.
    const auto roughness = [](const Print& print) {  // variance within the right field
        double count = 0, first = 0, second = 0;
        for (std::size_t y = 10; y < 110; ++y)
            for (std::size_t x = 150; x < 230; ++x) {
                const auto v = static_cast<double>(print.rgb[3 * (240 * y + x)]);
                count += 1, first += v, second += v * v;
            }
        return second / count - first / count * (first / count);
    };
    EXPECT_GT(roughness(study.views[5].print), roughness(study.views[6].print));
    EXPECT_GT(roughness(study.views[6].print), roughness(study.views[7].print));
}

TEST(Study, AReferenceIsShownInTheSameWays) {
    const Panel panel(0.5, 0.1, 0.4);
    ReferencePicture reference;
    reference.width_px = 30, reference.height_px = 10;
    for (int i = 0; i < 300; ++i)
        reference.pixels.push_back(glm::vec4(glm::vec3(static_cast<float>(i) / 300), 1));
    const Study study = make_study(panel.noted, {}, reference);
    ASSERT_EQ(study.reference.size(), 4u);
    for (const StudyView& view : study.reference) EXPECT_EQ(view.print.rgb.size(), 900u) << view.name;
}

TEST(Study, APictureWithoutPanelOrLightIsRefused) {
    Panel panel(0.5, 0.1, 0.4);
    Panel dark = panel;
    dark.noted.notes.illuminance_xyz = {{0, 0, 0}};
    EXPECT_THROW(make_study(dark.noted, {}, {}), RequestError);
    panel.noted.film.features.piece.assign(panel.noted.film.pixel_count(), 0);
    EXPECT_THROW(make_study(panel.noted, {}, {}), RequestError);
}

}  // namespace
}  // namespace rakelight
