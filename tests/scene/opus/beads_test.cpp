// Beads: whole balls of one size, none on another; closer than side by side in a square grid (pi / 4 of the
// plane) and no closer than circles can be (pi / sqrt 12, Thue 1910; Fejes Toth 1942).
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <ostream>

#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/opus.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

constexpr double kJoint_mm = 0.3;

struct Case {
    const char* name;
    double size_mm;
    bool curved;
    bool guided;
};

void PrintTo(const Case& c, std::ostream* out) {
    *out << c.name;
}

class Beads : public ::testing::TestWithParam<Case> {
  protected:
    void SetUp() override {
        const Case& c = GetParam();
        layout = sample_layout(Opus::beads, c.size_mm, c.size_mm, kJoint_mm);
        Field& field = layout.fields[0];
        if (c.curved) field.outline = bean();
        if (c.guided) field.guides = {{{{-20, 60}, {180, 190}, {400, 150}, {620, 260}}, true, false}};
        pieces = lay(layout).pieces;
        ground = plan_regions(layout, {})[0];
        ASSERT_GT(pieces.size(), 500u);
    }
    Layout layout;
    std::vector<Piece> pieces;
    Region ground;
};

TEST_P(Beads, AreWholeAndOfOneSize) {
    const Case& c = GetParam();
    for (const Piece& piece : pieces) {
        EXPECT_EQ(piece.form, PieceForm::bead);
        // A polygon of 24 corners on the circle: 24 / (2 pi) sin(2 pi / 24) of its area.
        const double whole = std::numbers::pi / 4 * c.size_mm * c.size_mm * 12 / std::numbers::pi *
                             std::sin(std::numbers::pi / 12);
        EXPECT_LT(area_mm2(piece.outline_mm), whole * 1.0001);
        EXPECT_GT(area_mm2(piece.outline_mm), whole * 0.97 * 0.97 * 0.9999);
        EXPECT_LT(area_mm2(subtract({{piece.outline_mm}}, ground)), 1e-3);
    }
}

TEST_P(Beads, NoneLiesOnAnother) {
    EXPECT_LT(largest_overlap_mm2(pieces), 1e-6);
}

TEST_P(Beads, LieClose) {
    double area = 0;
    for (const Piece& piece : pieces) area += area_mm2(piece.outline_mm);
    const double share = area / area_mm2(ground);
    RecordProperty("share", std::to_string(share));
    EXPECT_LT(share, std::numbers::pi / std::sqrt(12.0));
    const double joint = std::pow(1 + kJoint_mm / GetParam().size_mm, -2);  // what the joints take
    EXPECT_GT(share, joint * std::numbers::pi / 4);
}

INSTANTIATE_TEST_SUITE_P(Beads, Beads,
                         ::testing::Values(Case{"square", 6, false, false}, Case{"bean", 6, true, false},
                                           Case{"guided", 6, false, true}, Case{"small", 4, true, true}),
                         [](const auto& test) { return std::string(test.param.name); });

}  // namespace
}  // namespace rakelight
