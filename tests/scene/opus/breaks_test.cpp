#include "scene/flow/breaks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/laying_samples.h"
#include "tests/support/refusal.h"
#include "tests/support/row_measures.h"

namespace rakelight {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

Layout with_break() {
    Layout layout = sample_layout(Opus::musivum, 10, 8, 1.2);
    Field& f = layout.fields[0];
    f.guides = {smooth_stroke({{-10, 100}, {290, 100}}, false),
                smooth_stroke({{420, -10}, {420, 410}}, false)};
    f.breaks = {smooth_stroke({{300, -20}, {300, 420}}, false)};
    return layout;
}

TEST(Breaks, NoGuideIsSeenThroughABreak) {
    // Level rows left of the line, upright ones right of it, each as if it were alone.
    const std::vector<Guide> guides{{{{{0, 50}, {95, 50}}, false}, kInf},
                                    {{{{150, 0}, {150, 100}}, false}, kInf}};
    const std::vector<Row> breaks{{{{101, -50}, {101, 150}}, false}};
    const Lattice lattice = lattice_over({{0, 0}, {200, 100}}, 2);
    const auto flow = flow_from(guides, lattice, 9, breaks);
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = 0; x < lattice.columns; ++x) {
            const glm::dvec2 along = flow[lattice.index(x, y)].along, p = lattice.at(x, y);
            EXPECT_NEAR(std::abs(p.x < 101 ? along.x : along.y), 1, 1e-6) << p.x << ' ' << p.y;
        }
}

TEST(Breaks, PastTheEndOfABreakDirectionsTurnSmoothly) {
    const std::vector<Guide> guides{{{{{0, 50}, {95, 50}}, false}, kInf},
                                    {{{{150, 0}, {150, 100}}, false}, kInf}};
    const std::vector<Row> breaks{{{{101, -50}, {101, 80}}, false}};
    const Lattice lattice = lattice_over({{0, 0}, {200, 200}}, 2);
    const auto flow = flow_from(guides, lattice, 9, breaks);
    // A piece is some five nodes long: 15 degrees a piece are 3 a node (common practice, no published
    // source).
    int sharp = 0, all = 0;
    for (int y = 0; y + 1 < lattice.rows; ++y)
        for (int x = 0; x + 1 < lattice.columns; ++x) {
            const glm::dvec2 p = lattice.at(x, y);
            if (p.y < 110) continue;  // within three rows of its end the turn is the artist's
            const auto turn =
                std::abs(glm::dot(flow[lattice.index(x, y)].along, flow[lattice.index(x + 1, y)].along));
            ++all;
            sharp += turn < std::cos(glm::radians(3.0));
        }
    EXPECT_LT(sharp, all / 20);
}

TEST(Breaks, AcrossIsAQuarterTurnFromAlong) {
    const Row guide{{{-50, 20}, {60, 70}, {250, 40}}, false};
    const Lattice lattice = lattice_over({{0, 0}, {200, 100}}, 2);
    const auto along = flow_from({{guide, kInf, false}}, lattice, 9);
    const auto across = flow_from({{guide, kInf, true}}, lattice, 9);
    for (std::size_t i = 0; i < along.size(); ++i)
        EXPECT_NEAR(glm::dot(along[i].along, across[i].along), 0, 1e-6);
}

TEST(Breaks, AJointRunsAlongTheLineAndNoPieceCrossesIt) {
    const Layout layout = with_break();
    const auto pieces = lay(layout).pieces;
    double nearest_left = 0, nearest_right = 600;
    for (const auto& p : pieces) {
        const Box box = bounds(p.outline_mm);
        EXPECT_TRUE(box.high.x < 300 || box.low.x > 300) << box.low.x << ' ' << box.high.x;
        const bool left = box.high.x < 300;
        // Within 14 degrees of the guide: threshold of our own, only to catch a slip.
        EXPECT_GT(std::abs(left ? p.along.x : p.along.y), 0.97);
        if (left) nearest_left = std::max(nearest_left, box.high.x);
        if (!left) nearest_right = std::min(nearest_right, box.low.x);
    }
    EXPECT_NEAR(nearest_right - nearest_left, 1.2, 0.4);
}

TEST(Breaks, AreReadOnlyWhereRowsAreLaid) {
    const auto text = [](const char* opus) {
        return std::string("panel: {size: [300, 200]}\nfields:\n  - name: sea\n    mix: aqua\n    opus: ") +
               opus +
               "\n    rows: across\n    guides: [[[0, 50], [300, 90]]]\n    breaks: [{smooth: [[150, -5], "
               "[160, "
               "205]]}]\n";
    };
    const Layout layout = read_layout_text(text("musivum"), "here.yaml");
    EXPECT_TRUE(layout.fields[0].rows_across);
    ASSERT_EQ(layout.fields[0].breaks.size(), 1u);
    EXPECT_TRUE(layout.fields[0].breaks[0].smooth);
    const std::string what = refusal_of([&] { read_layout_text(text("palladianum"), "here.yaml"); });
    EXPECT_NE(what.find("here.yaml:6:11: fields[1].rows: found across"), std::string::npos) << what;
    EXPECT_NE(what.find("fields[1].breaks: found breaks in opus palladianum"), std::string::npos) << what;
}

bool same(const Piece& a, const Piece& b) {
    return a.outline_mm == b.outline_mm && a.seed == b.seed && a.material == b.material;
}

TEST(Breaks, SameSeedSameLayingAndOtherFieldsStay) {
    Layout layout = with_break();
    add_figure(layout, smooth_stroke({{60, 60}, {200, 60}, {200, 160}, {60, 160}}, true)).breaks = {
        smooth_stroke({{130, 40}, {130, 110}}, false)};
    const auto a = lay(layout).pieces, b = lay(layout).pieces;
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) ASSERT_TRUE(same(a[i], b[i]));
    layout.fields[1].breaks.clear();
    layout.fields[1].rows_across = true;
    const auto c = lay(layout).pieces;
    std::size_t kept = 0;
    bool others_changed = false;
    for (std::size_t i = 0; i < std::min(a.size(), c.size()); ++i) {
        if (a[i].field == 0) {
            ASSERT_TRUE(same(a[i], c[i]));
            ++kept;
        } else if (!same(a[i], c[i])) {
            others_changed = true;
        }
    }
    EXPECT_GT(kept, 50u);
    EXPECT_TRUE(others_changed);
}

}  // namespace
}  // namespace rakelight
