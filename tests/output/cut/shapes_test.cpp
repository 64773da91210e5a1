// Kerf, slabs and what is written of them.
#include "output/cut/shapes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "output/cut/drawing.h"
#include "output/cut/dxf.h"
#include "output/system/errors.h"

namespace rakelight {
namespace {

constexpr double kPi = std::numbers::pi;

Region rectangle(double width_mm, double height_mm, const glm::dvec2& at = {}) {
    return region_of({at, at + glm::dvec2(width_mm, 0), at + glm::dvec2(width_mm, height_mm),
                      at + glm::dvec2(0, height_mm)});
}

Region circle(double radius_mm, int points = 2000) {
    Ring ring;
    for (int i = 0; i < points; ++i)
        ring.push_back(radius_mm *
                       glm::dvec2(std::cos(2 * kPi * i / points), std::sin(2 * kPi * i / points)));
    return region_of(ring);
}

double length_mm(const Region& region) {
    double sum = 0;
    for (const Ring& ring : region.rings) sum += perimeter_mm(ring);
    return sum;
}

CutShape shape(const Region& piece, double kerf_mm, std::uint32_t material = 0) {
    CutShape s;
    s.name = "1.1";
    s.material = material;
    s.thickness_mm = 8;
    s.piece = piece;
    s.path = path_round(piece, kerf_mm);
    return s;
}

// Steiner's formula for the parallel body of a convex one: perimeter + 2 pi d, area + perimeter d + pi d^2.
// Arcs of the path stand for circles to 0.02 mm.
TEST(Kerf, PathRoundARectangleIsSteiners) {
    for (const double kerf_mm : {0.2, 1.0, 3.0}) {
        const double d = kerf_mm / 2;
        const Region path = path_round(rectangle(40, 25), kerf_mm);
        EXPECT_NEAR(length_mm(path), 130 + 2 * kPi * d, 4 * 0.02) << kerf_mm;
        EXPECT_NEAR(area_mm2(path), 1000 + 130 * d + kPi * d * d, 0.02 * 2 * kPi * d) << kerf_mm;
        EXPECT_NEAR(bounds(path).size().x, 40 + kerf_mm, 1e-3);
        EXPECT_NEAR(bounds(path).size().y, 25 + kerf_mm, 1e-3);
        EXPECT_NEAR(left_in_corners_mm2(rectangle(40, 25), kerf_mm), 0, 0.01);
    }
}

TEST(Kerf, PathRoundACircleIsACircle) {
    const Region path = path_round(circle(20), 1.2);
    ASSERT_EQ(path.rings.size(), 1u);
    for (const glm::dvec2& p : path.rings[0]) EXPECT_NEAR(glm::length(p), 20.6, 0.02);
    EXPECT_NEAR(length_mm(path), 2 * kPi * 20.6, 0.05);
}

// A hole is cut from within.
TEST(Kerf, AHoleGrowsNarrower) {
    const Region ring = subtract(rectangle(40, 40), rectangle(20, 10, {10, 15}));
    const Region path = path_round(ring, 2);
    EXPECT_NEAR(area_mm2(path), 1600 + 160 + kPi - 18 * 8, 0.1);
}

// In a hollow right angle a jet of radius r leaves r^2 (1 - pi / 4), its arc true to 0.02 mm.
TEST(Kerf, AHollowCornerKeepsWhatAJetCannotReach) {
    const Region angle = subtract(rectangle(40, 40), rectangle(20, 20, {20, 20}));
    EXPECT_NEAR(left_in_corners_mm2(angle, 3), 1.5 * 1.5 * (1 - kPi / 4), 0.02 * 1.5 * kPi / 2);
    EXPECT_EQ(left_in_corners_mm2(angle, 0), 0);
}

TEST(Kerf, NoneLeavesThePiece) {
    EXPECT_EQ(path_round(rectangle(40, 25), 0).rings, rectangle(40, 25).rings);
}

// No two paths nearer than asked for, none over the edge, none lost, none turned.
TEST(Slabs, ShapesLieApartAndNoneIsLost) {
    std::vector<CutShape> shapes;
    for (int i = 0; i < 60; ++i)
        shapes.push_back(
            shape(i % 3 == 0 ? circle(5 + i % 7, 60) : rectangle(8 + i % 5, 6 + i % 11, {i * 3.0, 40}), 1,
                  static_cast<std::uint32_t>(i % 2)));
    const glm::dvec2 slab_mm(120, 90);
    const auto slabs = spread_on_slabs(shapes, slab_mm, 4);
    EXPECT_GT(slabs.size(), 2u);
    std::vector<int> times(shapes.size());
    for (const CutSlab& slab : slabs) {
        std::vector<Box> boxes;
        for (const PlacedShape& placed : slab.shapes) {
            ++times[placed.shape];
            EXPECT_EQ(shapes[placed.shape].material, slab.material);
            Box box = bounds(shapes[placed.shape].path);
            box = {box.low + placed.shift_mm, box.high + placed.shift_mm};
            for (int k = 0; k < 2; ++k) {
                EXPECT_GE(box.low[k], 4 - 1e-9);
                EXPECT_LE(box.high[k], slab_mm[k] - 4 + 1e-9);
            }
            for (const Box& other : boxes)
                EXPECT_TRUE(box.low.x >= other.high.x + 4 - 1e-9 || other.low.x >= box.high.x + 4 - 1e-9 ||
                            box.low.y >= other.high.y + 4 - 1e-9 || other.low.y >= box.high.y + 4 - 1e-9);
            boxes.push_back(box);
        }
    }
    EXPECT_EQ(times, std::vector<int>(shapes.size(), 1));
}

TEST(Slabs, AShapeLargerThanTheSlabIsNamed) {
    try {
        spread_on_slabs({shape(rectangle(200, 30), 1)}, {200, 200}, 0);
        FAIL();
    } catch (const RequestError& e) {
        EXPECT_EQ(std::string(e.what()),
                  "--slab 200x200: found shape 1.1, which takes 201 x 31 mm with what is left round it, "
                  "expected a slab "
                  "that holds it");
    }
    EXPECT_EQ(spread_on_slabs({shape(rectangle(199, 199), 1)}, {200, 200}, 0).size(), 1u);
}

// Group codes of the DXF reference, release 12: pairs of lines, the code right-aligned in three places.
TEST(Dxf, IsPairsOfCodesAndValues) {
    const std::vector<CutShape> shapes{shape(rectangle(30, 20), 1)};
    const auto slabs = spread_on_slabs(shapes, {100, 80}, 5);
    const std::string text = slab_dxf(slabs[0], shapes, {100, 80});
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find("\r\n", at);
        ASSERT_NE(end, std::string::npos);
        lines.push_back(text.substr(at, end - at));
        at = end + 2;
    }
    ASSERT_EQ(lines.size() % 2, 0u);
    for (std::size_t i = 0; i < lines.size(); i += 2)
        EXPECT_EQ(lines[i].find_first_not_of(" 0123456789"), std::string::npos) << lines[i];
    EXPECT_EQ(lines[lines.size() - 2], "  0");
    EXPECT_EQ(lines.back(), "EOF");
}

TEST(CutDrawing, NamesThatFitStandOnTheirPieces) {
    const CutShape large = shape(rectangle(30, 20), 1), small = shape(rectangle(2, 2), 1);
    EXPECT_GT(name_on(large).height_mm, 3);
    EXPECT_TRUE(contains(large.piece, name_on(large).at_mm));
    EXPECT_EQ(name_on(small).height_mm, 0);
}

}  // namespace
}  // namespace rakelight
