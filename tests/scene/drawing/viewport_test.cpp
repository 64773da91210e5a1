#include "scene/drawing/svg/viewport.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace rakelight {
namespace {

constexpr double kDeg = std::numbers::pi / 180;

void expect_near(const Geom::Point& p, double x, double y) {
    EXPECT_NEAR(p.x(), x, 1e-9);
    EXPECT_NEAR(p.y(), y, 1e-9);
}

// SVG 1.1, 7.4: each transform as the matrix [a c e; b d f] that the section gives.
TEST(SvgTransform, EveryKind) {
    const Geom::Point p(3, 7);
    const auto moved = [&](const char* text) { return p * *read_svg_transform(text); };
    expect_near(moved("matrix(1,2 3 4 5 6)"), 1 * 3 + 3 * 7 + 5, 2 * 3 + 4 * 7 + 6);
    expect_near(moved("translate(10)"), 13, 7);
    expect_near(moved("translate(10-5)"), 13, 2);
    expect_near(moved("scale(2)"), 6, 14);
    expect_near(moved("scale(2,.5)"), 6, 3.5);
    expect_near(moved("rotate(90)"), -7, 3);
    const double c = std::cos(30 * kDeg), s = std::sin(30 * kDeg);
    expect_near(moved("rotate(30)"), c * 3 - s * 7, s * 3 + c * 7);
    expect_near(moved("rotate(30 3 7)"), 3, 7);
    expect_near(moved("rotate(90, 1, 1)"), 1 - 6, 1 + 2);
    expect_near(moved("skewX(45)"), 10, 7);
    expect_near(moved("skewY(30)"), 3, 7 + 3 * std::tan(30 * kDeg));
    expect_near(moved(""), 3, 7);
    // 7.5 and 7.6: a list is nested groups, the first outermost.
    expect_near(moved("translate(50,90),rotate(-45) translate(130,160)"), 50 + std::sqrt(.5) * (133 + 167),
                90 + std::sqrt(.5) * (167 - 133));
}

TEST(SvgTransform, NotATransform) {
    for (const char* bad : {"rotate", "rotate(", "rotate()", "rotate(1 2)", "turn(3)", "scale(1 2 3)",
                            "matrix(1 2 3 4 5)", "translate(1px)", ")(", "scale(nan)", "translate(1) x"})
        EXPECT_FALSE(read_svg_transform(bad)) << bad;
}

// SVG 1.1, 7.7, example viewBox: 0 0 1500 1000 shown 300 x 200 is a scale of 0.2; and 150 x 200 with
// preserveAspectRatio none a scale of 0.1 and 0.2.
TEST(SvgViewBox, ExampleOfTheStandard) {
    const Geom::Rect box = *read_svg_view_box("0 0 1500 1000");
    expect_near(Geom::Point(1500, 1000) * fit_view_box(box, Geom::Rect::from_xywh(0, 0, 300, 200), ""), 300,
                200);
    expect_near(Geom::Point(1500, 1000) * fit_view_box(box, Geom::Rect::from_xywh(0, 0, 150, 200), "none"),
                150, 200);
}

// 7.8, PreserveAspectRatio: a 30 x 40 picture in viewports of 50 x 30 (wide) and 20 x 60 (tall); a smaller
// scale when it must fit, a larger when it must cover; Min, Mid and Max say which ends touch.
TEST(SvgViewBox, EveryAlignment) {
    const Geom::Rect box = *read_svg_view_box(" 10,20 , 30 40 ");
    const Geom::Rect wide = Geom::Rect::from_xywh(100, 200, 50, 30),
                     tall = Geom::Rect::from_xywh(0, 0, 20, 60);
    const auto corners = [&](const Geom::Rect& port, const char* how, Geom::Point low, Geom::Point high) {
        SCOPED_TRACE(how);
        expect_near(Geom::Point(10, 20) * fit_view_box(box, port, how), low.x(), low.y());
        expect_near(Geom::Point(40, 60) * fit_view_box(box, port, how), high.x(), high.y());
    };
    corners(wide, "xMinYMin meet", {100, 200}, {122.5, 230});
    corners(wide, "xMidYMax", {113.75, 200}, {136.25, 230});
    corners(wide, "xMaxYMid  meet", {127.5, 200}, {150, 230});
    corners(wide, "xMidYMin slice", {100, 200}, {150, 200 + 50.0 * 4 / 3});
    corners(wide, "xMidYMid slice", {100, 215 - 50.0 * 2 / 3}, {150, 215 + 50.0 * 2 / 3});
    corners(wide, "defer xMinYMax slice", {100, 230 - 50.0 * 4 / 3}, {150, 230});
    corners(tall, "xMinYMin", {0, 0}, {20, 80.0 / 3});
    corners(tall, "", {0, 30 - 40.0 / 3}, {20, 30 + 40.0 / 3});
    corners(tall, "xMinYMax meet", {0, 60 - 80.0 / 3}, {20, 60});
    corners(tall, "none", {0, 0}, {20, 60});
}

TEST(SvgViewBox, NotAViewBox) {
    for (const char* bad : {"", "0 0 10", "0 0 10 10 10", "0 0 0 10", "0 0 10 -1", "a b c d", "0 0 10mm 10"})
        EXPECT_FALSE(read_svg_view_box(bad)) << bad;
}

}  // namespace
}  // namespace rakelight
