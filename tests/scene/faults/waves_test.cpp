// The critic on what is laid: fields 600 mm wide between two lines, whose rows have to open and close.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(Waves, RowsRunThrough) {
    Layout layout = sample_layout(Opus::musivum, 9, 7, 1);
    layout.panel.height_mm = 260;
    layout.fields[0].guides = {
        smooth_stroke(
            {{-10, 200}, {80, 236}, {170, 190}, {260, 176}, {350, 222}, {440, 230}, {530, 184}, {620, 206}},
            false),
        smooth_stroke({{620, 60}, {520, 40}, {430, 76}, {330, 70}, {240, 30}, {150, 34}, {70, 84}, {-10, 66}},
                      false)};
    const Laying laying = lay(layout);
    const LayingFaults faults = find_faults(layout, laying);
    ASSERT_GT(laying.pieces.size(), 1500u);
    // With rows of one width 17 ended in mid-field; a third of that. Common practice, no published source.
    EXPECT_LE(faults.of(FaultKind::row_end), 17u / 3);
    EXPECT_LT(faults.row_ends_per_100(), 1);
    EXPECT_LE(faults.of(FaultKind::wedge), 2u);
}

TEST(Waves, NoMoreRowsAreBornThanHaveTo) {
    // Between two lines that part from 30 to 200 mm: rows of 8 mm that are a fifth narrower and 15 % more at
    // the one end, as much wider at the other, are 5 there and 18 here. Two more for the hand; common
    // practice, no published source.
    Layout layout = sample_layout(Opus::musivum, 9.4, 7, 1);
    layout.panel.height_mm = 260;
    layout.fields[0].guides = {
        smooth_stroke({{-10, 30}, {150, 26}, {300, 34}, {450, 28}, {620, 30}}, false),
        smooth_stroke({{-10, 60}, {150, 84}, {300, 140}, {450, 200}, {620, 234}}, false)};
    const Laying laying = lay(layout);
    const LayingFaults faults = find_faults(layout, laying);
    EXPECT_LE(faults.of(FaultKind::row_end), 18u - 5 + 2);
}

TEST(Waves, RowsThatRunOutAlongAnEdgeEndInAWedge) {
    // Rows at six degrees to the edge, where eleven noses had left as many hollows and 32 short sides: two
    // thirds of both. Common practice, no published source.
    Layout layout = sample_layout(Opus::musivum, 9, 7, 1);
    layout.panel.width_mm = 400;
    layout.panel.height_mm = 200;
    layout.fields[0].guides = {{{{-10, 80}, {410, 125}}, false, false, {}}};
    const LayingFaults faults = find_faults(layout, lay(layout));
    EXPECT_LE(faults.of(FaultKind::hollow), 7u);
    EXPECT_LE(faults.of(FaultKind::short_side), 21u);
}

TEST(Waves, RowsRunStraightUpToASeam) {
    // Two guides at a right angle, mitred: rows that stopped short of the seam turned square to it, with 33
    // re-entrant cuts and 45 short sides there; a third of both. Common practice, no published source.
    Layout layout = sample_layout(Opus::musivum, 9, 8, 1);
    layout.panel.width_mm = layout.panel.height_mm = 300;
    layout.fields[0].guides = {{{{40, 20}, {400, 20}}, false, false, {}},
                               {{{20, 40}, {20, 520}}, false, false, {}}};
    layout.fields[0].mitred_seams = true;
    const LayingFaults faults = find_faults(layout, lay(layout));
    EXPECT_LE(faults.of(FaultKind::hollow), 33u / 3);
    EXPECT_LE(faults.of(FaultKind::short_side), 45u / 3);
    EXPECT_EQ(faults.of(FaultKind::row_end), 0u);
}

TEST(Waves, TurnsOfASpiralAreStaggered) {
    // A spiral whose turns stand one row apart. Where all turns ended on one ray from its middle, their heads
    // lay in line: fifty crossings of four in four layings; two thirds of that. Common practice, no published
    // source.
    Layout layout = sample_layout(Opus::musivum, 9, 8, 1);
    layout.panel.width_mm = layout.panel.height_mm = 240;
    std::vector<glm::dvec2> spiral;
    for (int k = 0; k <= 84; ++k) {
        const double turns = k / 12.0, angle = 2 * std::numbers::pi * turns;
        spiral.push_back(glm::dvec2(120) + (14 + 9 * turns) * glm::dvec2(std::cos(angle), std::sin(angle)));
    }
    layout.fields[0].guides = {smooth_stroke(spiral, false)};
    std::size_t crossings = 0;
    for (const std::uint64_t seed : {1, 2, 3, 4}) {
        layout.panel.seed = seed;
        crossings += find_faults(layout, lay(layout)).of(FaultKind::crossing);
    }
    EXPECT_LE(crossings, 50u * 2 / 3);
}

TEST(Waves, AHaloRowTakesAStripThatIsTooNarrowForARow) {
    // Two halo rows along a figure, and 4 mm on their other side: half a row of 9 mm. No piece is narrower
    // than half of a whole one. Common practice, no published source.
    Layout layout = sample_layout(Opus::musivum, 9, 8, 1);
    layout.panel.width_mm = 300;
    layout.panel.height_mm = 100 + 2 * 9 + 4;
    Field figure = layout.fields[0];
    figure.name = "figure";
    figure.outline = {{{-20, -20}, {320, -20}, {320, 100}, {-20, 100}}, false, true, {}};
    layout.fields[0].halo_rows = 2;
    layout.fields[0].halo_round = {"figure"};
    layout.fields.insert(layout.fields.begin(), figure);
    const Laying laying = lay(layout);
    std::size_t pieces = 0;
    for (const Piece& piece : laying.pieces) {
        if (piece.field != 1) continue;
        ++pieces;
        EXPECT_GT(bounds(piece.outline_mm).size().y, 4);
    }
    EXPECT_GT(pieces, 2u * 300 / 12);
}

}  // namespace
}  // namespace rakelight
