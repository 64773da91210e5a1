// The critic on pieces beside set stones.
#include <gtest/gtest.h>

#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

void set_eight_stones(Layout& layout) {
    for (int i = 0; i < 8; ++i) {
        PlacedStone stone;
        stone.material = kSlag;
        stone.at_mm = {90 + 130 * (i % 4) + 11 * (i / 4), 110 + 170 * (i / 4)};
        stone.size_mm = {34.0 + 3 * i, 26.0 + 2 * i, 20};
        stone.turn_deg = 23.0 * i;
        stone.form = i % 2 ? "pebble" : "chunk";
        stone.seed = static_cast<std::uint64_t>(i + 1);
        layout.stones.push_back(stone);
    }
}

TEST(BesideStones, CrazyPavingComesUpToThem) {
    Layout layout = sample_layout(Opus::palladianum, 24, 24, 2.4);
    layout.fields[0].mix = {{kSlate, 1}};
    set_eight_stones(layout);
    const LayingFaults faults = find_faults(layout, lay(layout));
    // There were 34; at most two to a stone are left, where the gap is too sharp for any piece. Common
    // practice, no published source.
    EXPECT_LE(faults.of(FaultKind::stone_gap), 16u);
}

TEST(BesideStones, RowsComeUpToThemAndAreCutToThem) {
    // Led round the eight in rings, rows ended on those 28 times in mid-field, 61 pieces were wedges of more
    // than 25 degrees and 8 were under a third of the mean: a third of each.
    // Common practice, no published source.
    Layout layout = sample_layout(Opus::musivum, 9, 7, 1);
    layout.fields[0].guides = {
        smooth_stroke({{-10, 200}, {150, 224}, {300, 196}, {450, 216}, {620, 200}}, false)};
    set_eight_stones(layout);
    const LayingFaults faults = find_faults(layout, lay(layout));
    EXPECT_LE(faults.of(FaultKind::row_end), 28u / 3);
    EXPECT_LE(faults.of(FaultKind::wedge), 61u / 3);
    EXPECT_LE(faults.of(FaultKind::small_piece), 8u / 3);
}

TEST(BesideStones, StraightRowsLeaveNoLakes) {
    // Where a row ended at a stone by less than half a piece, a lake of grout was left: 1074 mm2 round the
    // eight, now at most half of that. What stays is narrower than any piece. Common practice, no published
    // source.
    Layout layout = sample_layout(Opus::tessellatum, 12, 12, 1.2);
    set_eight_stones(layout);
    const LayingFaults faults = find_faults(layout, lay(layout));
    EXPECT_LT(faults.wide_joint_mm2, 1074. / 2);
}

}  // namespace
}  // namespace rakelight
