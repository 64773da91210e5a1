#include "scene/drawing/colour_map.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>

#include "scene/drawing/map_outlines.h"
#include "scene/geometry/region.h"
#include "scene/text/diagnostics.h"
#include "tests/support/picture_maker.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

using glm::dvec2;
using Rgb = std::array<std::uint8_t, 3>;

constexpr Rgb kSea{0x1f, 0x4a, 0x5a}, kRock{0x77, 0x77, 0x77}, kSand{0xd8, 0xc0, 0x90};
const std::vector<MapColour> kColours{{"sea", kSea, {}}, {"rock", kRock, {}}, {"sand", kSand, {}}};

/// A picture that goes away again.
struct Map {
    PictureMaker maker;
    std::filesystem::path path;
    Map(int width, int height, const std::function<Rgb(int x, int y)>& colour)
        : path(maker.write("map.png", width, height, 3, [&](int x, int y) {
              const Rgb c = colour(x, y);
              return PictureMaker::Pixel(c.begin(), c.end());
          })) {}
};

/// The share of a pixel right of the line x cos a + y sin a = d, near enough for antialiasing.
Rgb blend(const Rgb& a, const Rgb& b, double share_b) {
    Rgb mixed{};
    for (std::size_t c = 0; c < 3; ++c)
        mixed[c] =
            static_cast<std::uint8_t>(std::lround(a[c] + (b[c] - a[c]) * std::clamp(share_b, 0.0, 1.0)));
    return mixed;
}

std::vector<Ring> rings_of(const Drawing& drawing, const std::string& name) {
    std::vector<Ring> rings;
    for (const DrawnPath& path : drawing.paths)
        if (path.name.label == name)
            for (const DrawnLine& line : path.lines) rings.push_back(line.points_mm);
    return rings;
}
Region ground_of(const Drawing& drawing, const std::string& name) {
    return region_of(rings_of(drawing, name), true);
}

LabelMap labels(std::initializer_list<std::string> rows) {
    LabelMap map{static_cast<int>(rows.begin()->size()), static_cast<int>(rows.size()), {}};
    for (const std::string& row : rows)
        for (const char c : row)
            map.labels.push_back(c == '.' ? kNoColour : static_cast<std::uint8_t>(c - '0'));
    return map;
}

// Three areas that meet in a point, all edges antialiased: what one area ends at the next begins at.
TEST(ColourMap, NeighboursFillTheMapWithoutGapOrOverlap) {
    const auto soft = [](double d) { return d + 0.5; };
    const Map map(300, 200, [&](int x, int y) {
        const double px = x + 0.5, py = y + 0.5;
        const double wave = 110 + 30 * std::sin(px / 40);
        const double disc = std::hypot(px - 200, py - 110) - 50;
        return blend(blend(kSea, kSand, soft(py - wave)), kRock, soft(-disc));
    });
    const Drawing drawing = read_colour_map(map.path, kColours, {.width_mm = 600, .specks_mm = 3});
    EXPECT_EQ(drawing.size_mm, dvec2(600, 400));
    const Region sea = ground_of(drawing, "sea"), rock = ground_of(drawing, "rock"),
                 sand = ground_of(drawing, "sand");
    // Clipper rounds to a tenth of a micrometre; along metres of border that is a few hundredths of a mm2.
    EXPECT_LT(
        area_mm2(intersect(sea, rock)) + area_mm2(intersect(rock, sand)) + area_mm2(intersect(sea, sand)),
        0.1);
    EXPECT_NEAR(area_mm2(sea) + area_mm2(rock) + area_mm2(sand), 600 * 400, 0.1);
    // The disc: radius 50 px of 2 mm, y up; no point further off than the tolerance of 0.7 px.
    EXPECT_NEAR(area_mm2(rock), std::numbers::pi * 1e4, 0.7 * 2 * 2 * std::numbers::pi * 100);
    for (const Ring& ring : rings_of(drawing, "rock"))
        for (const dvec2 p : ring) {
            // Where three meet, pixels are mixtures of three.
            if (std::abs(400 - p.y - 220 - 60 * std::sin(p.x / 80)) < 12) continue;
            EXPECT_NEAR(glm::distance(p, dvec2(400, 180)), 100, 0.7 * 2);
        }
}

// A straight slanting edge comes out straight: all of it within the tolerance of the line, and its direction
// within a degree, so that rows do not follow the stairs of pixels.
TEST(ColourMap, StairsBecomeLines) {
    for (const double slope : {0.05, 0.3, 0.77, 1.0}) {
        const Map map(200, 200,
                      [&](int x, int y) { return y + 0.5 < 30 + slope * 0.6 * (x + 0.5) ? kSea : kRock; });
        const Drawing drawing = read_colour_map(map.path, kColours, {.width_mm = 200, .specks_mm = 0});
        int points = 0;
        for (const Ring& ring : rings_of(drawing, "rock"))
            for (const dvec2 p : ring) {
                if (p.x < 1 || p.x > 199 || p.y < 1) continue;  // the edges of the map
                EXPECT_NEAR(p.y, 200 - (30 + slope * 0.6 * p.x), 0.75 * kMapTolerance_px) << slope;
                ++points;
            }
        EXPECT_LT(points, 30) << slope;
    }
}

TEST(ColourMap, CornersAreKept) {
    const Map map(100, 100,
                  [&](int x, int y) { return x >= 20 && x < 70 && y >= 30 && y < 60 ? kRock : kSea; });
    const Drawing drawing = read_colour_map(map.path, kColours, {.width_mm = 100});
    const auto rings = rings_of(drawing, "rock");
    ASSERT_EQ(rings.size(), 1u);
    EXPECT_NEAR(std::abs(area_mm2(rings[0])), 50 * 30, 1e-6);
    EXPECT_EQ(rings_of(drawing, "sea").size(), 2u);  // with a hole
    EXPECT_NEAR(area_mm2(ground_of(drawing, "sea")), 1e4 - 1500, 0.01);
    for (const dvec2 corner : {dvec2(20, 70), {70, 70}, {20, 40}, {70, 40}})
        EXPECT_TRUE(std::any_of(rings[0].begin(), rings[0].end(),
                                [&](dvec2 p) { return glm::distance(p, corner) < 1e-9; }));
}

// The mixture of red and green on their border is a brown much like the third colour; it must not go there.
TEST(ColourMap, FringesGoToAColourBesideThem) {
    const std::vector<MapColour> colours{
        {"a", {220, 20, 20}, {}}, {"b", {20, 160, 20}, {}}, {"c", {120, 90, 20}, {}}};
    std::vector<std::string> warnings;
    const Map soft(60, 40, [&](int x, int y) {
        if (x > 50 && y > 30) return colours[2].srgb;
        return blend(colours[0].srgb, colours[1].srgb, (x - 29) / 4.0);
    });
    const LabelMap three = read_map_colours(soft.path, colours, 60, warnings);
    for (int x = 0; x < 45; ++x) EXPECT_NE(three.at(x, 10), 2) << x;
    EXPECT_EQ(three.at(55, 35), 2);
}

TEST(ColourMap, SpecksGoToTheLongestBorder) {
    LabelMap map = labels({"0000000000", "0001100000", "0002100000", "0000000111", "0000000111"});
    EXPECT_EQ(merge_specks(map, 5), 2u);
    EXPECT_EQ(map.labels,
              labels({"0000000000", "0000000000", "0000000000", "0000000111", "0000000111"}).labels);
    LabelMap alone = labels({"11", "11"});
    EXPECT_EQ(merge_specks(alone, 100), 0u);
}

// Areas of one colour joined by a corner only are two; a ring round them would cross itself.
TEST(MapOutlines, CornersPartAreas) {
    const auto outlines = map_outlines(labels({"0011", "0011", "1100", "1100"}), 2);
    for (const auto& rings : outlines) {
        ASSERT_EQ(rings.size(), 2u);
        double area = 0;
        for (const auto& ring : rings) area += std::abs(area_mm2(ring));
        EXPECT_NEAR(area, 8, 1);
    }
    EXPECT_EQ(map_outlines(labels({"..", ".."}), 1)[0].size(), 0u);
    EXPECT_EQ(map_outlines(labels({"0"}), 1)[0].size(), 1u);
    EXPECT_NEAR(std::abs(area_mm2(map_outlines(labels({"000000", "000000"}), 1)[0][0])), 12, 1e-9);
}

void expect_refused(const std::filesystem::path& path, const std::string& said) {
    const std::string told = refusal_of([&] { read_colour_map(path, kColours, {.width_mm = 600}); });
    EXPECT_NE(told.find(said), std::string::npos) << said << "\n" << told;
}

TEST(ColourMap, ColoursNotListedAreRefusedWithTheirShareAndPlace) {
    const Map map(100, 50, [&](int x, int y) {
        return x >= 40 && x < 60 && y >= 10 && y < 35 ? Rgb{250, 20, 200} : kSea;
    });
    // 20 x 25 less a fringe of 2 px: 16 x 21 of 5000 px. The first is pixel 42, 12 from the top of 50, 6 mm
    // each.
    expect_refused(map.path, "found a colour near #fa14c8 on 6.7 % of the map, first at [255.0, 225.0] mm");
}

TEST(ColourMap, BadPictures) {
    expect_refused("no-such.png", "found no file \"no-such.png\"");
    const test::Folder folder;
    expect_refused(folder.write("words.png", "not a picture"), "found a file that is no picture");
    // A PNG header (PNG specification, 11.2.2) of 30000 x 30000 pixels with nothing after it: refused unread.
    const std::string header(
        "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x75\x30\0\0\x75\x30\x08\x02\0\0\0\xe9\x45\x6f\xed\0\0\0\0IDAT\x35"
        "\xaf\x06\x1e",
        45);
    expect_refused(folder.write("huge.png", header), "found 30000 x 30000 pixels");
    const Map noise(800, 800, [](int x, int y) {
        return (x * 7 + y * 13) % 3 ? kSea : (x + y) % 2 ? kRock : kSand;
    });
    EXPECT_NO_THROW(read_colour_map(noise.path, kColours, {.width_mm = 600}));
}

}  // namespace
}  // namespace rakelight
