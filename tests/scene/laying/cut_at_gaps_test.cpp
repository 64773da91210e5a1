// A divided work is the undivided laying seen through windows: no piece crosses a gap, what stands clear of
// the gaps stands as before, and what is cut there lies within what lay there.
#include "scene/laying/cut_at_gaps.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "scene/laying/laying.h"
#include "scene/laying/region_plan.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/opera.h"
#include "scene/opus/opus.h"
#include "scene/text/diagnostics.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

constexpr double kJoint_mm = 1.5;

Layout undivided(Opus opus) {
    Layout layout = sample_layout(opus, 14, 10, kJoint_mm);
    give_what_opus_needs(layout.fields[0], {600, 400});
    return layout;
}

Layout divided(Layout layout, std::vector<double> at = {290}, double gap_mm = 30) {
    Division cut{std::move(at), gap_mm, {}, {}};
    for (std::size_t i = 0; i <= cut.at_mm.size(); ++i) cut.names.push_back("panel " + std::to_string(i));
    layout.panel.divided = cut;
    return layout;
}

Region all_of(const Laying& laying) {
    Region all;
    for (const Piece& piece : laying.pieces) all.rings.push_back(piece.outline_mm);
    return all;
}

bool touches_cut(const std::vector<PanelSpan>& spans, const Box& box) {
    for (std::size_t s = 0; s + 1 < spans.size(); ++s)
        if (box.high.x > spans[s].right_mm - 1e-6 && box.low.x < spans[s + 1].left_mm + 1e-6) return true;
    return false;
}

// How much of an upright line pieces cover.
double covered_mm(const Laying& laying, double x_mm) {
    double sum = 0;
    for (const Piece& piece : laying.pieces) {
        double low = 1e300, high = -1e300;
        for (const auto& [a, b] : edges(piece.outline_mm)) {
            if ((a.x < x_mm) == (b.x < x_mm)) continue;
            const double y = a.y + (b.y - a.y) * (x_mm - a.x) / (b.x - a.x);
            low = std::min(low, y);
            high = std::max(high, y);
        }
        if (low < high) sum += high - low;
    }
    return sum;
}

class EveryOpus : public testing::TestWithParam<Opus> {};

TEST_P(EveryOpus, IsTheUndividedLayingThroughWindows) {
    const Layout whole = undivided(GetParam()), cut = divided(whole, {200, 410}, 24);
    const Laying before = lay(whole), after = lay(cut);
    const std::vector<PanelSpan> spans = panel_spans(cut.panel);
    const bool of_whole_pieces = is_of_whole_pieces(GetParam());
    for (const Piece& piece : after.pieces) {
        const Box box = bounds(piece.outline_mm);
        EXPECT_TRUE(std::ranges::any_of(spans,
                                        [&](const PanelSpan& span) {
                                            return box.low.x >= span.left_mm - 1e-9 &&
                                                   box.high.x <= span.right_mm + 1e-9;
                                        }))
            << box.low.x << " to " << box.high.x;
    }
    if (of_whole_pieces) return;  // pebbles and beads are packed up to the edges, and none is cut
    // Clear of the gaps, and of what has grown by a remnant: the same pieces.
    std::vector<Ring> old;
    for (const Piece& piece : before.pieces) old.push_back(piece.outline_mm);
    const auto less = [](const Ring& a, const Ring& b) {
        return std::ranges::lexicographical_compare(a, b, [](const glm::dvec2& p, const glm::dvec2& q) {
            return p.x != q.x ? p.x < q.x : p.y < q.y;
        });
    };
    std::ranges::sort(old, less);
    std::size_t same = 0, clear = 0;
    Laying at_cuts;
    for (const Piece& piece : after.pieces)
        if (std::ranges::binary_search(old, piece.outline_mm, less))
            ++same;
        else
            at_cuts.pieces.push_back(piece);
    for (const Ring& ring : old) clear += !touches_cut(spans, bounds(ring));
    EXPECT_GT(same, 0.85 * static_cast<double>(clear));
    EXPECT_FALSE(at_cuts.pieces.empty());
    const Region lay_there =
        grow(all_of(before), kJoint_mm);  // with the joint between a remnant and its taker
    for (const Piece& piece : at_cuts.pieces)
        EXPECT_LT(area_mm2(subtract({{piece.outline_mm}}, lay_there)), 0.01 * 14 * 10);
    // The pieces reach the cuts as well as they do the edges of the panel.
    constexpr double kInside_mm = 1;
    const double as_well =
        GetParam() == Opus::palladianum ? 0.75 : 0.94;  // stones of any shape: some have no taker
    const double at_edges = std::min(covered_mm(before, kInside_mm), covered_mm(before, 600 - kInside_mm));
    for (std::size_t s = 0; s + 1 < spans.size() && !rule_of(GetParam()).drawn; ++s) {
        EXPECT_GT(covered_mm(after, spans[s].right_mm - kInside_mm), as_well * at_edges);
        EXPECT_GT(covered_mm(after, spans[s + 1].left_mm + kInside_mm), as_well * at_edges);
    }
    // What the cuts cost: splinters, no more than at an edge of the panel.
    const Region clipped = intersect(all_of(before), panel_region(cut.panel));
    EXPECT_GT(area_mm2(all_of(after)), 0.97 * area_mm2(clipped));
    EXPECT_LT(area_mm2(all_of(after)), 1.01 * area_mm2(clipped));
    // None is smaller than the rules let a remnant be.
    const CuttingRules rules = hand_of(cut.fields[0]).rules;
    if (rule_of(GetParam()).drawn) return;
    for (const Piece& piece : at_cuts.pieces) {
        EXPECT_GE(area_mm2(piece.outline_mm), 0.9 * 0.12 * rules.nominal_mm2);
        EXPECT_TRUE(star_centre(piece.outline_mm));
    }
}

INSTANTIATE_TEST_SUITE_P(CutAtGaps, EveryOpus, testing::ValuesIn([] {
                             std::vector<Opus> all;
                             for (const OpusRule& rule : opera()) all.push_back(rule.opus);
                             return all;
                         }()),
                         [](const auto& of) {
                             std::string name(rule_of(of.param).word);
                             std::ranges::replace(name, ' ', '_');
                             return name;
                         });

// Squares of 10 mm, 2 apart, cut 3 mm and then 7 mm into one: the remnant of 3 goes to its neighbour in the
// row, 10 + 2 + 3 = 15 mm long and within 1.55 whole pieces; that of 7 stays.
TEST(CutAtGaps, RemnantGoesToItsNeighbour) {
    Layout layout = sample_layout(Opus::tessellatum, 10, 10, 2);
    layout.panel.width_mm = 118;
    layout = divided(layout, {0}, 10);
    std::vector<Piece> row;
    for (int i = 0; i < 10; ++i) {
        Piece piece;
        const double x = 12.0 * i;
        piece.outline_mm = {{x, 0}, {x + 10, 0}, {x + 10, 10}, {x, 10}};
        row.push_back(piece);
    }
    const auto last_of_left = [&](double edge_mm) {
        layout.panel.divided->at_mm = {edge_mm + 5};
        std::vector<Piece> pieces = row;
        cut_at_gaps(layout.fields[0], layout.panel, hand_of(layout.fields[0]).rules, pieces);
        Box last;
        std::size_t count = 0;
        for (const Piece& piece : pieces)
            if (const Box box = bounds(piece.outline_mm); box.low.x < edge_mm) {
                ++count;
                if (last.high.x < box.high.x) last = box;
            }
        return std::pair(count, last);
    };
    const auto [grown, wide] = last_of_left(51);  // the fifth piece begins at 48
    EXPECT_EQ(grown, 4u);
    EXPECT_NEAR(wide.low.x, 36, 0.3);
    EXPECT_NEAR(wide.high.x, 51, 0.3);
    const auto [kept, narrow] = last_of_left(55);
    EXPECT_EQ(kept, 5u);
    EXPECT_NEAR(narrow.low.x, 48, 0.3);
    EXPECT_NEAR(narrow.high.x, 55, 0.3);
}

TEST(CutAtGaps, StoneAcrossTheCutIsRefusedWithItsPlace) {
    Layout layout = divided(undivided(Opus::tessellatum));  // the gap is from 275 to 305
    PlacedStone stone;
    stone.material = kSlag;
    stone.size_mm = {34, 28, 20};
    stone.proud_mm = 9;
    stone.place = {"tide.yaml", 7, 5};
    stone.at_mm = {200, 200};
    layout.stones = {stone};
    EXPECT_NO_THROW(lay(layout));
    layout.stones[0].at_mm = {268, 200};
    try {
        lay(layout);
        FAIL();
    } catch (const LayoutError& error) {
        ASSERT_EQ(error.problems().size(), 1u);
        EXPECT_EQ(error.problems()[0].place.line, 7);
        EXPECT_EQ(error.problems()[0].key, "stones[1].at");
        EXPECT_NE(error.problems()[0].text.find("x = 275"), std::string::npos) << error.what();
    }
}

TEST(CutAtGaps, BouldersLieOnOnePanelEach) {
    Layout layout = undivided(Opus::tessellatum);
    layout.fields[0].boulders.material = kSlag;
    layout.fields[0].boulders.count = 12;
    layout.fields[0].boulders.size_mm = {30, 40};
    layout = divided(layout, {200, 400}, 20);
    const std::vector<PanelSpan> spans = panel_spans(layout.panel);
    const Laying laying = lay(layout);
    ASSERT_EQ(laying.stones.size(), 12u);
    for (const SetStone& stone : laying.stones) {
        const Box box = bounds(stone.footprint_mm);
        const PanelSpan& span = spans[span_at(spans, stone.stone.at_mm.x)];
        EXPECT_GE(box.low.x, span.left_mm);
        EXPECT_LE(box.high.x, span.right_mm);
    }
}

}  // namespace
}  // namespace rakelight
