#include "scene/drawing/svg/reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/geometry/region.h"
#include "scene/reading/field/drawn_sheet.h"
#include "tests/support/svg_samples.h"

namespace rakelight {
namespace {

using glm::dvec2;
using Chain = std::vector<dvec2>;

/// The lines of a page with one element; y told in mm from the top, as the element tells it.
std::vector<DrawnLine> lines_of(const std::string& element, double tolerance_mm = 0.01) {
    const Drawing drawing = read_svg_text(page(element), "t.svg", {.tolerance_mm = tolerance_mm});
    std::vector<DrawnLine> lines;
    for (const DrawnPath& path : drawing.paths)
        lines.insert(lines.end(), path.lines.begin(), path.lines.end());
    for (DrawnLine& line : lines)
        for (dvec2& p : line.points_mm) p.y = 80 - p.y;
    return lines;
}
std::vector<DrawnLine> path(const std::string& data) {
    return lines_of("<path d='" + data + "'/>");
}

void expect_chain(const DrawnLine& line, const Chain& points, bool closed) {
    EXPECT_EQ(line.closed, closed);
    ASSERT_EQ(line.points_mm.size(), points.size());
    for (std::size_t i = 0; i < points.size(); ++i)
        EXPECT_LT(glm::distance(line.points_mm[i], points[i]), 1e-9) << i;
}
void expect_path(const std::string& data, const Chain& points, bool closed) {
    SCOPED_TRACE(data);
    const auto lines = path(data);
    ASSERT_EQ(lines.size(), 1u);
    expect_chain(lines[0], points, closed);
}

double distance_to(dvec2 p, const DrawnLine& line) {
    double best = 1e300;
    const std::size_t n = line.points_mm.size();
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < n; ++i)
        best = std::min(best, distance_mm(p, line.points_mm[i], line.points_mm[(i + 1) % n]));
    return best;
}

// SVG 1.1, 8.3: every command for straight lines, absolute and relative, and the liberties of the grammar in
// 8.3.9: implicit repeats (moveto goes on as lineto), numbers that run together, exponents, leading points.
TEST(SvgPath, StraightCommands) {
    const Chain square{{10, 20}, {30, 20}, {30, 50}, {10, 50}};
    for (const char* same :
         {"M10 20L30 20L30 50L10 50Z", "m10,20h20v30h-20z", "M10 20H30V50H10z", "M 10 20 30 20 30 50 10 50 Z",
          "m10 20 20 0 0 30-20 0z", "M1e1+20l.2e2,0 0 30-20 0z", "M10,20\n\tL30,20 30 50,10 50 z",
          "M10 20 h15 5 v10 20 H 10 z", "M10 20L30 20 30 50 10 50 10 20"})
        expect_path(same, square, true);
    expect_path("M.5.5 1.5.5-1-1", {{.5, .5}, {1.5, .5}, {-1, -1}}, false);
    expect_path("M10 20l5 5", {{10, 20}, {15, 25}}, false);
}

// 8.3.2 and 8.3.3: after closepath the next subpath starts at the same point; a relative moveto counts from
// it.
TEST(SvgPath, SubpathsAfterClosing) {
    const auto lines = path("M10 10h10v10z l0 -5 M50 50h5v5z m10 0 h5 v5 z M1 1");
    ASSERT_EQ(lines.size(), 4u);
    expect_chain(lines[0], {{10, 10}, {20, 10}, {20, 20}}, true);
    expect_chain(lines[1], {{10, 10}, {10, 5}}, false);
    expect_chain(lines[2], {{50, 50}, {55, 50}, {55, 55}}, true);
    expect_chain(lines[3], {{60, 50}, {65, 50}, {65, 55}}, true);
}

// 8.3.6: a cubic is its Bernstein form, S reflects the control point before; both ways must be on the chain.
TEST(SvgPath, CubicCurves) {
    const auto bezier = [](dvec2 a, dvec2 b, dvec2 c, dvec2 d, double t) {
        const double s = 1 - t;
        return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
    };
    for (const char* same : {"M10 40C10 10 40 10 40 40S70 70 70 40", "m10 40c0-30 30-30 30 0s30 30 30 0"}) {
        const auto lines = path(same);
        ASSERT_EQ(lines.size(), 1u);
        for (int i = 0; i <= 40; ++i) {
            const double t = i / 40.0;
            EXPECT_LT(distance_to(bezier({10, 40}, {10, 10}, {40, 10}, {40, 40}, t), lines[0]), 0.01);
            EXPECT_LT(distance_to(bezier({40, 40}, {40, 70}, {70, 70}, {70, 40}, t), lines[0]), 0.01);
        }
    }
}

// 8.3.7: a quadratic, and T with the reflected point.
TEST(SvgPath, QuadraticCurves) {
    const auto bezier = [](dvec2 a, dvec2 b, dvec2 c, double t) {
        return (1 - t) * (1 - t) * a + 2 * t * (1 - t) * b + t * t * c;
    };
    for (const char* same : {"M10 40Q25 10 40 40T70 40", "m10 40q15-30 30 0t30 0"}) {
        const auto lines = path(same);
        ASSERT_EQ(lines.size(), 1u);
        for (int i = 0; i <= 40; ++i) {
            EXPECT_LT(distance_to(bezier({10, 40}, {25, 10}, {40, 40}, i / 40.0), lines[0]), 0.01);
            EXPECT_LT(distance_to(bezier({40, 40}, {55, 70}, {70, 40}, i / 40.0), lines[0]), 0.01);
        }
    }
}

// 8.3.8 and F.6: between two points at a right angle about a centre, radius 20, the four arcs by large-arc
// and sweep; sweep-flag 1 runs with the angle, clockwise as y points down.
TEST(SvgPath, FourArcs) {
    // From (50,20) to (30,40): centres (30,20) and (50,40).
    const auto expect_arc = [](const std::string& flags, dvec2 centre, double from_deg, double turn_deg) {
        for (const std::string& data :
             {"M50 20A20 20 0 " + flags + " 30 40", "M50 20a20,20,0," + flags + "-20 20"}) {
            SCOPED_TRACE(data);
            const auto lines = path(data);
            ASSERT_EQ(lines.size(), 1u);
            double length = 0;
            for (std::size_t i = 1; i < lines[0].points_mm.size(); ++i)
                length += glm::distance(lines[0].points_mm[i], lines[0].points_mm[i - 1]);
            EXPECT_NEAR(length, 20 * std::abs(turn_deg) * std::numbers::pi / 180, 0.1);
            for (int i = 0; i <= 30; ++i) {
                const double a = (from_deg + turn_deg * i / 30) * std::numbers::pi / 180;
                EXPECT_LT(distance_to(centre + 20.0 * dvec2(std::cos(a), std::sin(a)), lines[0]), 0.01);
            }
        }
    };
    expect_arc("0 1", {30, 20}, 0, 90);
    expect_arc("1 1", {50, 40}, -90, 270);
    expect_arc("0 0", {50, 40}, -90, -90);
    expect_arc("1 0", {30, 20}, 0, -270);
}

// F.6.2 and F.6.6: radii too small grow until the ends fit, their sign is left off, a radius of 0 is a line;
// x-axis-rotation is in degrees. Flags need no room after them (8.3.9).
TEST(SvgPath, ArcsOutOfRange) {
    // Grown to 25 each, or to 50 and 25: half an ellipse about the middle of the ends.
    for (const char* data : {"M10 40A1 1 0 0 1 60 40", "M10 40A-1-1 0 0160 40"})
        for (int i = 0; i <= 20; ++i) {
            const double a = std::numbers::pi * (1 + i / 20.0);
            EXPECT_LT(distance_to(dvec2(35, 40) + 25.0 * dvec2(std::cos(a), std::sin(a)), path(data)[0]),
                      0.01)
                << data;
        }
    // Turned by 90 degrees, rx lies along y.
    for (int i = 0; i <= 20; ++i) {
        const double a = std::numbers::pi * (1 + i / 20.0);
        EXPECT_LT(
            distance_to({35 + 25 * std::cos(a), 60 + 50 * std::sin(a)}, path("M10 60A50 25 90 0 1 60 60")[0]),
            0.01);
    }
    expect_path("M10 40A0 5 0 0 1 60 40L60 50", {{10, 40}, {60, 40}, {60, 50}}, false);
    EXPECT_TRUE(path("M10 40A5 5 0 0 1 10 40").empty());  // F.6.2: ends alike, no arc
}

// Chapter 9.
TEST(SvgShapes, ShapesOfTheStandard) {
    expect_chain(lines_of("<rect x='10' y='20' width='30' height='40'/>")[0],
                 {{10, 20}, {40, 20}, {40, 60}, {10, 60}}, true);
    expect_chain(lines_of("<line x1='1' y1='2' x2='3' y2='4'/>")[0], {{1, 2}, {3, 4}}, false);
    expect_chain(lines_of("<polyline points='1,2 3,4 -5-6'/>")[0], {{1, 2}, {3, 4}, {-5, -6}}, false);
    expect_chain(lines_of("<polygon points='1,2 3,4 5 1'/>")[0], {{1, 2}, {3, 4}, {5, 1}}, true);
    const auto area = [](const std::string& element) {
        const auto lines = lines_of(element);
        EXPECT_EQ(lines.size(), 1u);
        return std::abs(area_mm2(lines.at(0).points_mm));
    };
    const double pi = std::numbers::pi;
    EXPECT_NEAR(area("<circle cx='50' cy='40' r='20'/>"), pi * 400, 1.5);
    EXPECT_NEAR(area("<ellipse cx='50' cy='40' rx='30' ry='10'/>"), pi * 300, 1.5);
    // 9.2: one radius stands for both, and none is more than half the side.
    EXPECT_NEAR(area("<rect x='10' y='10' width='60' height='40' rx='5'/>"), 2400 - (4 - pi) * 25, 1);
    EXPECT_NEAR(area("<rect x='10' y='10' width='60' height='40' rx='10' ry='4'/>"), 2400 - (4 - pi) * 40, 1);
    EXPECT_NEAR(area("<rect x='10' y='10' width='60' height='40' rx='99' ry='99'/>"), pi * 30 * 20, 1.5);
    for (const char* none :
         {"<rect width='0' height='4'/>", "<circle/>", "<ellipse rx='5'/>", "<polygon/>", "<path/>"})
        EXPECT_TRUE(lines_of(none).empty()) << none;
    EXPECT_NEAR(distance_to({50 - 20 * std::sqrt(.5), 40 + 20 * std::sqrt(.5)},
                            lines_of("<circle cx='50' cy='40' r='20'/>")[0]),
                0, 0.01);
}

// 7.2, 5.1.2: the size of the page in mm by its units, its viewBox, or both.
TEST(SvgPage, SizeInMillimetres) {
    const struct {
        const char* head;
        double width_mm, height_mm;
    } cases[] = {{"width='96' height='192px'", 25.4, 50.8},
                 {"width='10cm' height='2in'", 100, 50.8},
                 {"width='72pt' height='12pc'", 25.4, 50.8},
                 {"viewBox='5 5 96 192'", 25.4, 50.8},
                 {"width='100%' height='100%' viewBox='0 0 96 192'", 25.4, 50.8},
                 {"width='100mm' viewBox='0 0 2 1'", 100, 50},
                 {"height='100mm' viewBox='0 0 2 1'", 200, 100}};
    for (const auto& c : cases) {
        const Drawing drawing = read_svg_text("<svg " + std::string(c.head) + "/>", "t.svg");
        EXPECT_NEAR(drawing.size_mm.x, c.width_mm, 1e-9) << c.head;
        EXPECT_NEAR(drawing.size_mm.y, c.height_mm, 1e-9) << c.head;
    }
}

TEST(SvgPage, AWidthOfTheLayoutScalesAll) {
    const Drawing drawing = read_svg_text(page("<path d='M0 80L100 0'/>"), "t.svg", {.width_mm = 600});
    EXPECT_NEAR(drawing.size_mm.y, 480, 1e-9);
    const Chain& line = drawing.paths.at(0).lines.at(0).points_mm;
    EXPECT_LT(glm::distance(line[0], dvec2(0, 0)), 1e-9);  // the lower left corner: y is up
    EXPECT_LT(glm::distance(line[1], dvec2(600, 480)), 1e-9);
}

// 5.6: use draws what it names, moved by x and y within its own transform; a symbol has a viewport. A nested
// svg has one too (5.1.2, 7.9).
TEST(SvgStructure, UseSymbolAndNestedSvg) {
    expect_chain(lines_of("<defs><path id='p' d='M1 2L3 4'/></defs><use xlink:href='#p' x='10' y='20' "
                          "transform='scale(2)'/>")[0],
                 {{22, 44}, {26, 48}}, false);
    expect_chain(lines_of("<symbol id='s' viewBox='0 0 10 10'><path d='M0 0L10 10'/></symbol>"
                          "<use href='#s' x='5' y='6' width='20' height='20'/>")[0],
                 {{5, 6}, {25, 26}}, false);
    expect_chain(
        lines_of(
            "<svg x='5' y='6' width='20' height='40' viewBox='0 0 10 10'><path d='M0 0L10 10'/></svg>")[0],
        {{5, 16}, {25, 36}}, false);
    expect_chain(lines_of("<switch><path requiredExtensions='x' d='M0 0L1 1'/><path d='M1 2L3 4'/><path "
                          "d='M5 5L6 6'/></switch>")[0],
                 {{1, 2}, {3, 4}}, false);
    EXPECT_EQ(lines_of("<switch><path d='M1 2L3 4'/><path d='M5 5L6 6'/></switch>").size(), 1u);
}

TEST(SvgStructure, GroupsNamesAndPlaces) {
    const Drawing d =
        read_svg_text(page("<g id='a'>\n <g id='b'><path id='c' d='M0 0L1 1'/></g>\n</g>"), "t.svg");
    ASSERT_EQ(d.groups.size(), 2u);
    EXPECT_EQ(d.groups[1].parent, 0);
    ASSERT_EQ(d.paths.size(), 1u);
    EXPECT_EQ(d.paths[0].group, 1);
    EXPECT_EQ(d.paths[0].name.id, "c");
    EXPECT_EQ(d.paths[0].place.line, 3);
}

// 11.5: display none hides all within, visibility only what does not say otherwise.
TEST(SvgStructure, HiddenThingsAreLeftOutAndTold) {
    const Drawing d = read_svg_text(
        page("<g style='display:none'><path d='M0 0L1 1'/></g>"
             "<g visibility='hidden'><path d='M0 0L2 2'/><path visibility='visible' d='M0 0L3 3'/></g>"),
        "t.svg");
    ASSERT_EQ(d.paths.size(), 1u);
    EXPECT_LT(glm::distance(d.paths[0].lines[0].points_mm[1], dvec2(3, 77)), 1e-9);
    ASSERT_EQ(d.warnings.size(), 1u);
    EXPECT_NE(d.warnings[0].find("left out 2 times"), std::string::npos) << d.warnings[0];
}

/// What a name stands for: ground by the rule of each path, and open lines.
struct Meant {
    Region ground;
    std::vector<DrawnLine> open;
};
Meant meant(DrawnSheet& sheet, const std::string& name) {
    Meant m;
    for (const DrawnPath* path : sheet.take(name)) {
        std::vector<Ring> rings;
        for (const DrawnLine& line : path->lines)
            if (line.closed)
                rings.push_back(line.points_mm);
            else
                m.open.push_back(line);
        if (!rings.empty()) m.ground = unite(m.ground, region_of(rings, path->even_odd));
    }
    return m;
}

TEST(SvgDialects, TwoEditorsSayTheSame) {
    const std::vector<std::string> names{"sea", "deep rock", "swell"};
    DrawnSheet a(read_svg_text(kPixelDialect, "a.svg"), names),
        b(read_svg_text(kMillimetreDialect, "b.svg"), names);
    EXPECT_LT(glm::distance(a.drawing().size_mm, dvec2(127, 76.2)), 1e-9);
    EXPECT_LT(glm::distance(b.drawing().size_mm, dvec2(127, 76.2)), 1e-9);
    EXPECT_TRUE(a.drawing().warnings.empty());
    EXPECT_TRUE(b.drawing().warnings.empty());
    // Two thirds of the page; a frame of 96 x 60 less 48 x 36 px and a disc of radius 24 px.
    const double px = 25.4 / 96;
    const double areas[] = {480 * 192 * px * px, (96 * 60 - 48 * 36 + std::numbers::pi * 576) * px * px, 0};
    for (std::size_t n = 0; n < names.size(); ++n) {
        SCOPED_TRACE(names[n]);
        ASSERT_TRUE(a.knows(names[n]));
        ASSERT_TRUE(b.knows(names[n]));
        const Meant in_a = meant(a, names[n]), in_b = meant(b, names[n]);
        EXPECT_NEAR(area_mm2(in_a.ground), areas[n], 1);
        EXPECT_LT(area_mm2(subtract(in_a.ground, in_b.ground)) + area_mm2(subtract(in_b.ground, in_a.ground)),
                  0.02 * std::max(1.0, areas[n]));
        ASSERT_EQ(in_a.open.size(), in_b.open.size());
        for (std::size_t l = 0; l < in_a.open.size(); ++l)
            for (const dvec2 p : in_a.open[l].points_mm)
                EXPECT_LT(distance_to(p, in_b.open[l]), 2 * kDrawnTolerance_mm);
    }
    EXPECT_TRUE(a.unused().empty());
    EXPECT_TRUE(b.unused().empty());
}

}  // namespace
}  // namespace rakelight
