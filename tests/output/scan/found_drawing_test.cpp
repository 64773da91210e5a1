// What lines enclose, by lines whose answer is known in closed form; no picture is looked at.
#include "output/scan/found_drawing.h"

#include <gtest/gtest.h>

#include <numbers>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

/// Chains on a sheet of 200 by 100 mm, each with nodes of its own.
struct Sheet {
    TracedPage page{5, 0.2, {}, {}};
    int nodes = 0;

    void line(std::vector<glm::dvec2> points, const std::string& ink = "black") {
        std::vector<glm::dvec2> fine;
        for (std::size_t i = 1; i < points.size(); ++i) {
            const int n = 1 + static_cast<int>(glm::distance(points[i - 1], points[i]) / 0.2);
            for (int k = 0; k < n; ++k) fine.push_back(glm::mix(points[i - 1], points[i], double(k) / n));
        }
        fine.push_back(points.back());
        const bool loop = points.front() == points.back();
        page.chains.push_back({ink, ink == "black", nodes, loop ? nodes : nodes + 1, fine});
        nodes += 2;
    }
    void circle(const glm::dvec2& at, double radius) {
        std::vector<glm::dvec2> points;
        for (int i = 0; i <= 200; ++i) {
            const double w = 2 * std::numbers::pi * (i % 200) / 200;
            points.push_back(at + radius * glm::dvec2(std::cos(w), std::sin(w)));
        }
        line(points);
    }
    FoundDrawing found(double gap_mm = 2) const { return find_drawing(page, {200, 100}, {gap_mm, 3}); }
};

double area(const FoundRegion& region) {
    return area_mm2(region_of(region.rings_mm, true));
}

TEST(FoundDrawing, ALineFromEdgeToEdgeMakesTwoRegions) {
    Sheet sheet;
    sheet.line({{80, 2}, {80, 98}});  // ends a little short of the edges, as drawn
    const FoundDrawing found = sheet.found();
    ASSERT_EQ(found.regions.size(), 2u);
    EXPECT_NEAR(area(found.regions[0]), 120 * 100, 1);
    EXPECT_NEAR(area(found.regions[1]), 80 * 100, 1);
    EXPECT_TRUE(found.closings_mm.empty());
    // Farthest from all sides: within the 120 x 100 part, on the middle of its height.
    EXPECT_NEAR(found.regions[0].at_mm.y, 50, 1);
    EXPECT_NEAR(found.regions[1].at_mm.x, 40, 1);
}

TEST(FoundDrawing, GapsAreClosedUpToTheWidthTold) {
    for (const double gap : {1.0, 2.9, 3.1, 6.0}) {
        Sheet sheet;
        sheet.line({{80, 2}, {80, 40}});
        sheet.line({{80, 40 + gap}, {80, 98}});
        const FoundDrawing found = sheet.found(3);
        EXPECT_EQ(found.regions.size(), gap < 3 ? 2u : 1u) << gap;
        EXPECT_EQ(found.closings_mm.size(), gap < 3 ? 1u : 0u) << gap;
    }
}

TEST(FoundDrawing, ALineThatStopsShortOfAnotherIsLedOnStraight) {
    Sheet sheet;
    sheet.line({{2, 60}, {198, 60}});
    sheet.line({{50, 2}, {90, 57.5}});  // at a slant; straight on it meets y = 60 at 91.8
    const FoundDrawing found = sheet.found(3);
    ASSERT_EQ(found.regions.size(), 3u);
    const double left = (50 + 91.8) / 2 * 60;
    EXPECT_NEAR(area(found.regions[0]), 200 * 60 - left > 200 * 40 ? 200 * 60 - left : 200 * 40, 40);
}

TEST(FoundDrawing, AnIslandIsAHoleRoundARegionOfItsOwn) {
    Sheet sheet;
    sheet.circle({100, 50}, 30);
    sheet.circle({100, 50}, 12);
    const FoundDrawing found = sheet.found();
    ASSERT_EQ(found.regions.size(), 3u);
    const double pi = std::numbers::pi;
    EXPECT_NEAR(area(found.regions[0]), 200 * 100 - pi * 900, 30);
    EXPECT_NEAR(area(found.regions[1]), pi * (900 - 144), 30);
    EXPECT_NEAR(area(found.regions[2]), pi * 144, 15);
    // Neighbours share every point of their line.
    std::vector<glm::dvec2> hole = found.regions[1].rings_mm.at(1), own = found.regions[2].rings_mm.at(0);
    const auto by_place = [](const glm::dvec2& a, const glm::dvec2& b) {
        return a.x < b.x || (a.x == b.x && a.y < b.y);
    };
    std::sort(hole.begin(), hole.end(), by_place);
    std::sort(own.begin(), own.end(), by_place);
    EXPECT_EQ(hole, own);
}

TEST(FoundDrawing, OpenLinesAndColouredLinesAreGuidesOfTheirRegion) {
    Sheet sheet;
    sheet.line({{100, 2}, {100, 98}});
    sheet.line({{20, 50}, {70, 50}});
    sheet.line({{10, 20}, {190, 20}}, "blue");
    const FoundDrawing found = sheet.found();
    ASSERT_EQ(found.regions.size(), 2u);
    std::size_t black = 0, blue = 0;
    for (const FoundRegion& region : found.regions)
        for (const FoundGuide& guide : region.guides) {
            (guide.ink == "blue" ? blue : black) += 1;
            EXPECT_NEAR(length_mm(guide.points_mm), guide.ink == "blue" ? 90 : 50, 1.5);  // cut at the line
        }
    EXPECT_EQ(black, 1u);
    EXPECT_EQ(blue, 2u);
}

TEST(FoundDrawing, ALineGoesOnUnderOneOfAnotherColour) {
    Sheet sheet;
    sheet.line({{2, 50}, {95, 50}});
    sheet.line({{105, 50}, {198, 50}});
    EXPECT_EQ(sheet.found().regions.size(), 1u);
    sheet.line({{60, 51}, {140, 49}}, "red");  // over the ten millimetres in between
    EXPECT_EQ(sheet.found().regions.size(), 2u);
}

TEST(FoundDrawing, StairsOfPixelsAreRelaxedAndSpecksGoToANeighbour) {
    Sheet sheet;
    std::vector<glm::dvec2> stairs;
    for (int i = 5; i <= 495; ++i) stairs.push_back({0.4 * i, 30 + 0.2 * std::floor(0.5 * i)});
    TracedChain chain{"black", true, 0, 1, stairs};
    sheet.page.chains.push_back(chain);
    sheet.nodes = 2;
    sheet.circle({40, 80}, 1.2);
    const FoundDrawing found = sheet.found();
    ASSERT_EQ(found.regions.size(), 2u);
    EXPECT_EQ(found.specks, 1u);
    for (const glm::dvec2& p : found.regions[0].rings_mm[0]) {
        if (p.x < 5 || p.x > 195 || p.y < 5 || p.y > 95) continue;
        EXPECT_NEAR(100 - p.y, 30 + 0.25 * p.x - 0.05, 0.12);  // the straight line of the stairs
    }
}

TEST(FoundDrawing, LinesAtRandomCoverTheSheetOnce) {
    Rng rng(5);
    for (int round = 0; round < 60; ++round) {
        Sheet sheet;
        const int n = 2 + static_cast<int>(rng.within(0, 9));
        for (int i = 0; i < n; ++i) {
            if (rng.unit() < 0.3) {
                sheet.circle({rng.within(20, 180), rng.within(20, 80)}, rng.within(3, 18));
                continue;
            }
            sheet.line({{rng.within(3, 197), rng.within(3, 97)}, {rng.within(3, 197), rng.within(3, 97)}});
        }
        // Lines here may cross without a node, which a traced page never has: only what must hold is asked.
        const FoundDrawing found = sheet.found(rng.within(0, 10));
        EXPECT_FALSE(found.regions.empty());
        for (const FoundRegion& region : found.regions) {
            EXPECT_GT(region.rings_mm[0].size(), 2u);
            for (const Ring& ring : region.rings_mm)
                for (const glm::dvec2& p : ring) {
                    EXPECT_GE(p.x, -1e-9);
                    EXPECT_LE(p.x, 200 + 1e-9);
                    EXPECT_GE(p.y, -1e-9);
                    EXPECT_LE(p.y, 100 + 1e-9);
                }
        }
    }
}

TEST(FoundDrawing, PaperWithoutLinesIsRefused) {
    EXPECT_THROW(Sheet().found(), std::runtime_error);
}

}  // namespace
}  // namespace rakelight
