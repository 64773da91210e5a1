// A picture warped, recoloured and noised by known amounts: that is the judge.
#include "output/compare/compared.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "materials/colour/ciede2000.h"
#include "output/compare/by_chart.h"
#include "output/system/errors.h"
#include "tests/support/photographed.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr double kLux = 400;

// A panel of pieces in rows that shift, of five materials with dark joints, on a wall; one corner is mirrored
// light only.
Film panel_film() {
    Film film;
    film.width = 480, film.height = 360;
    film.rows = {0, film.height};
    film.groups = {"light"};
    film.materials = {"chalk", "teal", "coral", "ochre", "slate", "joint", "wall"};
    const std::vector<glm::dvec3> colours{{0.8, 0.8, 0.78},  {0.1, 0.35, 0.38},  {0.6, 0.25, 0.2},
                                          {0.5, 0.35, 0.12}, {0.12, 0.13, 0.15}, {0.05, 0.05, 0.05},
                                          {0.4, 0.4, 0.4}};
    const std::size_t n = film.pixel_count();
    film.xyz.assign(1, std::vector<glm::vec3>(n));
    film.features.depth_mm.assign(n, 1000);
    film.features.normal.assign(n, glm::vec3(0, 0, 1));
    film.features.piece.assign(n, 0);
    film.features.material.assign(n, 7);
    film.features.first_surface_share.assign(n, 0.05f);
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const auto i = static_cast<std::size_t>(y * film.width + x);
            int material = 7;
            if (x >= 60 && x < 420 && y >= 50 && y < 310) {
                const int row = (y - 50) / 20, shifted = x - 60 + (row * 7) % 18, column = shifted / 18;
                const bool joint = (y - 50) % 20 < 2 || shifted % 18 < 2;
                material = joint ? 6 : 1 + (row * 31 + column * 17 + row * column) % 5;
                film.features.piece[i] = joint ? 0 : 1 + row * 30 + column;
                if (x > 340 && y > 230) film.features.first_surface_share[i] = 0.9f;
            }
            film.features.material[i] = material;
            const double falls = 1 - 0.2 * x / film.width;  // light of the place
            const glm::dvec3 rgb = colours[static_cast<std::size_t>(material) - 1] * falls;
            Xyz c = linear_rgb_to_xyz({rgb.r, rgb.g, rgb.b});
            const double scale = kLux / std::numbers::pi;
            film.xyz[0][i] = glm::vec3(glm::dvec3(c.x, c.y, c.z) * scale);
            if (film.features.first_surface_share[i] > 0.5f) film.xyz[0][i] *= 5;
        }
    return film;
}

CompareAsk ask_of(const Corners& corners) {
    CompareAsk ask;
    ask.corners = corners;
    ask.light_white = {0.9505 * kLux, kLux, 1.089 * kLux};
    return ask;
}

const Corners kPanel{glm::dvec2(60, 50), {420, 50}, {420, 310}, {60, 310}};

const ComparedArea& area(const std::vector<ComparedArea>& areas, const std::string& name) {
    for (const ComparedArea& a : areas)
        if (a.name == name) return a;
    throw std::logic_error("no area " + name);
}

TEST(Compared, CornersWithinAPixelAndTheShiftWithinATenth) {
    const Film film = panel_film();
    const test::Folder folder;
    double worst_corner = 0, worst_shift = 0;
    const std::array<Corners, 3> seen{Corners{glm::dvec2(210, 150), {1010, 190}, {980, 800}, {170, 760}},
                                      Corners{glm::dvec2(90, 70), {520, 40}, {560, 420}, {70, 380}},
                                      Corners{glm::dvec2(400, 260), {1500, 120}, {1560, 1160}, {330, 1010}}};
    for (std::size_t k = 0; k < seen.size(); ++k) {
        test::ByCamera by;
        by.width = k == 1 ? 640 : 1700, by.height = k == 1 ? 480 : 1275;
        by.to_photo = homography(kPanel, seen[k]);
        by.exposure = 0.7;
        by.balance = {1.1, 1, 0.85};  // the camera's white is not the picture's
        by.recolour = {{2, {1.25, 0.95, 0.9}}, {3, {0.85, 1.0, 1.1}}};
        by.noise = 0.03;
        by.light_white = {0.9505 * kLux, kLux, 1.089 * kLux};
        const auto path = folder.path() / ("photo" + std::to_string(k) + (k == 1 ? ".png" : ".jpg"));
        test::photograph(path, film, by);
        Corners clicked = seen[k];  // by a hand that is up to nine pixels off
        const std::array<glm::dvec2, 4> off{glm::dvec2(5, -4), {-6, 3}, {4, 7}, {-7, -5}};
        for (std::size_t i = 0; i < 4; ++i) clicked[i] += off[i] * (k == 1 ? 0.5 : 1.0);
        CompareAsk ask = ask_of(clicked);
        ask.white = "chalk";
        const Compared c = compare(film, read_panel_photograph(path), ask);
        EXPECT_TRUE(c.by_edges);
        for (std::size_t i = 0; i < 4; ++i) {
            // Against the truth at the same point of the picture.
            const double miss = glm::length(c.found[i] - projected(by.to_photo, c.in_picture[i]));
            EXPECT_LT(miss, 1) << k << ' ' << i;
            worst_corner = std::max(worst_corner, miss);
        }
        for (const auto& [name, number] : {std::pair{"teal", 2}, {"coral", 3}}) {
            const ComparedArea& a = area(c.materials, name);
            const LinearRgb rgb = xyz_to_linear_rgb({a.picture_xyz.x, a.picture_xyz.y, a.picture_xyz.z});
            const glm::dvec3 f = by.recolour.at(number);
            const Lab changed = xyz_to_lab(linear_rgb_to_xyz({rgb.r * f.r, rgb.g * f.g, rgb.b * f.b}),
                                           linear_rgb_to_xyz({1, 1, 1}));
            const double truth = ciede2000(a.picture, changed);
            EXPECT_NEAR(a.delta_e, truth, 0.1 * truth) << k << ' ' << name;
            worst_shift = std::max(worst_shift, std::abs(a.delta_e / truth - 1));
            EXPECT_LT(ciede2000(a.photo, changed), 0.1 * truth) << k << ' ' << name;
        }
        for (const char* name : {"chalk", "ochre", "slate"})
            EXPECT_LT(area(c.materials, name).delta_e, 1) << name;
        EXPECT_TRUE(c.materials[0].name == "teal" || c.materials[0].name == "coral");
        EXPECT_GT(c.mirrored_out, 4000u);
        EXPECT_EQ(c.delta_e[static_cast<std::size_t>(300 * 480 + 400)], -1);  // in the mirrored corner
        EXPECT_EQ(c.delta_e[0], -1);                                          // on the wall
    }
    std::printf("corners off by %.2f px, colour shift by %.1f %% at worst\n", worst_corner,
                100 * worst_shift);
}

TEST(Compared, ByFieldAndWithoutAWhite) {
    const Film film = panel_film();
    const test::Folder folder;
    test::ByCamera by;
    by.width = 960, by.height = 720;
    by.to_photo = homography(kPanel, {glm::dvec2(120, 100), {840, 100}, {840, 620}, {120, 620}});
    by.exposure = 0.5;
    by.light_white = {0.9505 * kLux, kLux, 1.089 * kLux};
    test::photograph(folder.path() / "p.png", film, by);
    CompareAsk ask = ask_of({glm::dvec2(120, 100), {840, 100}, {840, 620}, {120, 620}});
    for (int i = 0; i < 13 * 30; ++i) ask.field_of_piece.push_back(i / 30 < 6 ? 0 : 1);
    ask.field_names = {"upper", "lower"};
    const Compared c = compare(film, read_panel_photograph(folder.path() / "p.png"), ask);
    ASSERT_EQ(c.fields.size(), 2u);
    for (const ComparedArea& f : c.fields) EXPECT_LT(f.delta_e, 0.5) << f.name;
    EXPECT_NEAR(c.gain.r, 2, 0.05);
    EXPECT_LT(c.median, 0.5);
    ask.white = "chalc";
    try {
        compare(film, read_panel_photograph(folder.path() / "p.png"), ask);
        FAIL();
    } catch (const RequestError& error) {
        EXPECT_NE(std::string(error.what()).find("did you mean chalk"), std::string::npos) << error.what();
    }
}

double worst_of(const std::vector<ComparedArea>& areas) {
    double worst = 0;
    for (const ComparedArea& a : areas) worst = std::max(worst, a.delta_e);
    return worst;
}

// A camera whose channels mix and whose curve is steeper than that of sRGB, as telephones have it. Wrong
// without the chart, and within 1.5 with it (a limit of our own).
TEST(Compared, TheChartUndoesTheCamera) {
    const Film film = panel_film();
    const test::Folder folder;
    test::ByCamera by;
    by.width = 1400, by.height = 700;
    const Corners seen{glm::dvec2(620, 60), {1340, 80}, {1330, 600}, {630, 590}};
    by.to_photo = homography(kPanel, seen);
    by.chart = {{{50, 150}, {500, 160}, {495, 460}, {55, 452}}};
    by.exposure = 0.7;
    by.balance = {1.1, 1, 0.85};
    by.camera = glm::transpose(glm::dmat3(0.78, 0.20, 0.02, 0.10, 0.85, 0.05, 0.02, 0.23, 0.75));
    by.contrast = 0.4;
    by.noise = 0.02;
    by.light_white = {0.9505 * kLux, kLux, 1.089 * kLux};
    test::photograph(folder.path() / "p.png", film, by);
    CompareAsk ask = ask_of(seen);
    const Compared plain = compare(film, read_panel_photograph(folder.path() / "p.png"), ask);
    double lightness = 0;
    for (const ComparedArea& a : plain.materials)
        lightness = std::max(lightness, std::abs(a.photo.l - a.picture.l));
    EXPECT_GT(lightness, 3);
    EXPECT_GT(worst_of(plain.materials), 5);
    ask.by_chart = true;
    const ByChart read = read_by_chart(folder.path() / "p.png", *by.chart, light_like(ask.light_white));
    EXPECT_TRUE(read.doubts.empty()) << read.doubts.front();
    const Compared charted = compare(film, read.photo, ask);
    EXPECT_EQ(charted.gain, glm::dvec3(1));
    for (const ComparedArea& a : charted.materials) EXPECT_LT(a.delta_e, 1.5) << a.name;
    std::printf("materials off at worst by %.1f as sRGB, %.2f by the chart\n", worst_of(plain.materials),
                worst_of(charted.materials));
}

TEST(Compared, RefusesPhotographsThatAreNone) {
    const test::Folder folder;
    folder.write("text.jpg", "no picture");
    EXPECT_THROW(read_panel_photograph(folder.path() / "text.jpg"), RequestError);
    EXPECT_THROW(read_panel_photograph(folder.path() / "missing.jpg"), RequestError);
    EXPECT_THROW(read_panel_photograph(folder.path()), RequestError);
    Film empty = panel_film();
    std::fill(empty.features.piece.begin(), empty.features.piece.end(), 0);
    EXPECT_THROW(corners_of_pieces(empty), RequestError);
}

TEST(Homography, TakesCornersToCorners) {
    const Corners to{glm::dvec2(10, 20), {300, 40}, {280, 260}, {30, 220}};
    const glm::dmat3 h = homography(kPanel, to);
    for (std::size_t i = 0; i < 4; ++i) EXPECT_LT(glm::length(projected(h, kPanel[i]) - to[i]), 1e-9);
    // A straight line stays one: the middle of a side lies on the side (projective geometry).
    const glm::dvec2 middle = projected(h, (kPanel[0] + kPanel[1]) / 2.0), side = to[1] - to[0];
    EXPECT_NEAR(side.x * (middle - to[0]).y - side.y * (middle - to[0]).x, 0, 1e-6);
    EXPECT_TRUE(proper(to));
    EXPECT_FALSE(proper({to[0], to[2], to[1], to[3]}));
    EXPECT_FALSE(proper({to[3], to[2], to[1], to[0]}));
}

}  // namespace
}  // namespace rakelight
