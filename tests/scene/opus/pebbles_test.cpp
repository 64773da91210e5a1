// Pebbles: packed to 75 to 85 % of the ground, long axis along the flow; common practice, no published
// source.
#include <gtest/gtest.h>

#include <ostream>
#include <string>

#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/cutting.h"
#include "scene/opus/opus.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

struct Case {
    const char* name;
    bool on_edge;
    bool curved;
    bool holed;
};

void PrintTo(const Case& c, std::ostream* out) {
    *out << c.name;
}

struct Axes {
    glm::dvec2 along{1, 0};
    double ratio = 1;
};

// Long axis and axis ratio of a ring, by its corners' second moments (corners are spaced evenly).
Axes axes_of(const Ring& ring) {
    const glm::dvec2 c = centroid(ring);
    double xx = 0, xy = 0, yy = 0;
    for (const auto& p : ring) {
        xx += (p.x - c.x) * (p.x - c.x);
        xy += (p.x - c.x) * (p.y - c.y);
        yy += (p.y - c.y) * (p.y - c.y);
    }
    const double turn = 0.5 * std::atan2(2 * xy, xx - yy);
    const double mean = (xx + yy) / 2, spread = std::hypot((xx - yy) / 2, xy);
    return {{std::cos(turn), std::sin(turn)}, std::sqrt((mean + spread) / (mean - spread))};
}

class Pebbles : public ::testing::TestWithParam<Case> {
  protected:
    void SetUp() override {
        const Case& c = GetParam();
        layout =
            c.on_edge ? sample_layout(Opus::pebbles, 26, 10, 1) : sample_layout(Opus::pebbles, 22, 14, 1.5);
        Field& field = layout.fields[0];
        field.on_edge = c.on_edge;
        field.angle_deg = 30;
        if (c.curved) field.outline = bean();
        if (c.holed) layout.stones.push_back({kSlag, {300, 200}, {120, 90, 60}, 20, 20, "chunk", 1, {}});
        const Laying laying = lay(layout);
        pieces = laying.pieces;
        std::vector<Ring> footprints;
        for (const auto& stone : laying.stones) footprints.push_back(stone.footprint_mm);
        ground = plan_regions(layout, footprints)[0];
        ASSERT_GT(pieces.size(), 200u);
    }
    Layout layout;
    std::vector<Piece> pieces;
    Region ground;
};

TEST_P(Pebbles, NothingOverlapsAndAllLieOnTheGround) {
    EXPECT_LT(largest_overlap_mm2(pieces), 1e-6);
    for (const auto& p : pieces) EXPECT_LT(area_mm2(subtract({{p.outline_mm}}, ground)), 1e-3);
}

TEST_P(Pebbles, Packing) {
    double area = 0;
    for (const auto& p : pieces) area += area_mm2(p.outline_mm);
    EXPECT_GT(area / area_mm2(ground), 0.75);
    EXPECT_LT(area / area_mm2(ground), 0.85);
}

TEST_P(Pebbles, LongAxesLieAlongTheFlow) {
    const double flow = glm::radians(30.0);
    double square = 0;
    int long_ones = 0;
    for (const auto& p : pieces) {
        const Axes axes = axes_of(p.outline_mm);
        if (axes.ratio < 1.25 || area_mm2(p.outline_mm) < 120) continue;
        const double c = std::abs(glm::dot(axes.along, {std::cos(flow), std::sin(flow)}));
        const double off = glm::degrees(std::acos(std::min(1.0, c)));
        square += off * off;
        ++long_ones;
    }
    ASSERT_GT(long_ones, 80);
    // Pure chance would give 52 degrees (uniform over 90: 90 / sqrt 3).
    EXPECT_LT(std::sqrt(square / long_ones), 20);
}

TEST_P(Pebbles, Rounded) {
    // Bodies are pebbles, and nothing is left of the corners of a cell, which turn by 60 to 120 degrees.
    for (const auto& p : pieces) {
        EXPECT_EQ(p.form, PieceForm::pebble);
        ASSERT_TRUE(star_centre(p.outline_mm));
        for (std::size_t k = 0; k < p.outline_mm.size(); ++k)
            EXPECT_GT(interior_angle_deg(p.outline_mm, k), 110);
    }
}

TEST_P(Pebbles, LargeAndSmall) {
    if (GetParam().on_edge) return;  // ribs are of one kind
    int large = 0, small = 0;
    for (const auto& p : pieces) {
        large += area_mm2(p.outline_mm) > 0.6 * 22 * 14;
        small += area_mm2(p.outline_mm) < 0.35 * 22 * 14;
    }
    EXPECT_GT(large, static_cast<int>(pieces.size()) / 4);
    EXPECT_GT(small, static_cast<int>(pieces.size()) / 5);
}

INSTANTIATE_TEST_SUITE_P(
    Fields, Pebbles,
    ::testing::Values(Case{"flat", false, false, false}, Case{"flat_bean", false, true, false},
                      Case{"flat_holed", false, false, true}, Case{"edge", true, false, false},
                      Case{"edge_bean", true, true, false}, Case{"edge_holed", true, false, true}),
    [](const auto& test) { return std::string(test.param.name); });

}  // namespace
}  // namespace rakelight
