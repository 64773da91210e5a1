// The critic on walls drawn by hand, where every fault is known: each is put in, found once and placed.
#include "scene/faults/faults.h"

#include <gtest/gtest.h>

#include <numbers>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

constexpr double kJoint_mm = 2, kSide_mm = 10, kPitch_mm = kSide_mm + kJoint_mm;
constexpr int kColumns = 20, kRows = 10;

Piece block(double x0, double x1, double y0, double y1) {
    Piece p;
    p.outline_mm = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    return p;
}

// Brickwork without a fault: rows 10 wide and 2 apart over the whole panel, half pieces at both ends.
struct Wall {
    Layout layout = sample_layout(Opus::tessellatum, kSide_mm, kSide_mm, kJoint_mm);
    Laying laying;
    Wall() {
        layout.panel.width_mm = kColumns * kPitch_mm - kJoint_mm;
        layout.panel.height_mm = kRows * kPitch_mm - kJoint_mm;
        for (int row = 0; row < kRows; ++row) {
            const double y = row * kPitch_mm;
            const bool odd = row % 2 != 0;
            if (odd) laying.pieces.push_back(block(0, 4, y, y + kSide_mm));
            for (int i = 0; i < kColumns - (odd ? 1 : 0); ++i) {
                const double x = i * kPitch_mm + (odd ? 6 : 0);
                laying.pieces.push_back(block(x, x + kSide_mm, y, y + kSide_mm));
            }
            if (odd) {
                const double x = layout.panel.width_mm;
                laying.pieces.push_back(block(x - 4, x, y, y + kSide_mm));
            }
        }
    }
    // The piece over a place.
    std::size_t at(const glm::dvec2& p) const {
        for (std::size_t i = 0; i < laying.pieces.size(); ++i)
            if (contains(laying.pieces[i].outline_mm, p)) return i;
        ADD_FAILURE() << p.x << ' ' << p.y;
        return 0;
    }
    void take_out(std::size_t i) {
        laying.pieces.erase(laying.pieces.begin() + static_cast<std::ptrdiff_t>(i));
    }
    LayingFaults faults() const { return find_faults(layout, laying); }
};

// All of one kind, and no other kind found.
void expect_only(const LayingFaults& faults,
                 std::initializer_list<std::pair<FaultKind, std::size_t>> wanted) {
    for (const FaultWord& word : fault_words()) {
        std::size_t number = 0;
        for (const auto& [kind, n] : wanted)
            if (kind == word.kind) number = n;
        EXPECT_EQ(faults.of(word.kind), number) << word.word;
    }
}

TEST(Faults, NoneInBrickwork) {
    const Wall wall;
    const LayingFaults faults = wall.faults();
    expect_only(faults, {});
    EXPECT_EQ(faults.worst(), nullptr);
    EXPECT_EQ(faults.pieces_in_rows, wall.laying.pieces.size());
    EXPECT_EQ(faults_in_words(wall.layout, wall.laying, faults), "");
}

TEST(Faults, AMissingPieceIsALakeOfItsOwnArea) {
    Wall wall;
    const glm::dvec2 hole(10 * kPitch_mm + 5, 4 * kPitch_mm + 5);
    wall.take_out(wall.at(hole));
    const LayingFaults faults = wall.faults();
    ASSERT_EQ(faults.of(FaultKind::wide_joint), 1u);
    EXPECT_EQ(faults.of(FaultKind::row_end), 2u);  // the row stops on either side of it
    const Fault& lake = faults.all[0];
    EXPECT_NEAR(glm::distance(lake.at_mm, hole), 0, 0.05);
    // A square of piece and two joints, 14 mm, its corners rounded by the disc of 3 mm that is rolled in it;
    // the mouths of head joints add a little.
    EXPECT_NEAR(lake.value, 14, 0.1);
    EXPECT_NEAR(faults.wide_joint_mm2, 14 * 14 - (4 - std::numbers::pi) * 1.5 * 1.5, 2);
    EXPECT_EQ(faults.worst(), &lake);
    const std::string line = faults_in_words(wall.layout, wall.laying, faults);
    EXPECT_NE(line.find("'whole' at [125, 53]"), std::string::npos) << line;
}

TEST(Faults, ARowThatEndsBetweenTwo) {
    // Rows 4 and 5 become one from the middle on: its pieces are as high as both and the joint between.
    Wall wall;
    const double x0 = 10 * kPitch_mm, y0 = 4 * kPitch_mm, right = wall.layout.panel.width_mm;
    std::erase_if(wall.laying.pieces, [&](const Piece& p) {
        const glm::dvec2 at = centroid(p.outline_mm);
        return at.x > x0 && at.y > y0 && at.y < y0 + 2 * kPitch_mm;
    });
    Ring& last = wall.laying.pieces[wall.at({x0 - 5, y0 + 17})].outline_mm;
    last[1].x = last[2].x = x0 - kJoint_mm;
    for (double x = x0; x < right; x += kPitch_mm)
        wall.laying.pieces.push_back(block(x, x + kSide_mm, y0, y0 + 22));
    const LayingFaults faults = wall.faults();
    ASSERT_EQ(faults.of(FaultKind::row_end), 1u);
    for (const Fault& fault : faults.all)
        if (fault.kind == FaultKind::row_end) {
            EXPECT_NEAR(fault.at_mm.x, x0 - kJoint_mm, 1e-9);
            EXPECT_NEAR(std::abs(fault.at_mm.y - (y0 + 11)), 6,
                        1e-9);  // of either row: both had as much claim
        }
    EXPECT_NEAR(faults.row_ends_per_100(),
                100.0 * static_cast<double>(faults.of(FaultKind::row_end)) /
                    static_cast<double>(wall.laying.pieces.size()),
                1e-9);
}

// Rows 4 and 5 become one at `x0`, of a wall that ends at 15 pitches; on its right is a figure with a halo of
// four rows, 48 mm.
std::size_t row_ends_beside_a_halo(double x0) {
    Wall wall;
    Field figure = wall.layout.fields[0];
    figure.name = "figure";
    const double border = 15 * kPitch_mm, width = wall.layout.panel.width_mm,
                 height = wall.layout.panel.height_mm;
    wall.layout.fields[0].outline = {{{0, 0}, {border, 0}, {border, height}, {0, height}}, false, true, {}};
    figure.outline = {{{border, 0}, {width, 0}, {width, height}, {border, height}}, false, true, {}};
    wall.layout.fields[0].halo_rows = 4;
    wall.layout.fields[0].halo_round = {"figure"};
    wall.layout.fields.push_back(figure);
    const double y0 = 4 * kPitch_mm;
    std::erase_if(wall.laying.pieces, [&](const Piece& p) {
        const glm::dvec2 at = centroid(p.outline_mm);
        return at.x > x0 && at.y > y0 && at.y < y0 + 2 * kPitch_mm;
    });
    Ring& last = wall.laying.pieces[wall.at({x0 - 5, y0 + 17})].outline_mm;
    last[1].x = last[2].x = x0 - kJoint_mm;
    for (double x = x0; x < width; x += kPitch_mm)
        wall.laying.pieces.push_back(block(x, x + kSide_mm, y0, y0 + 22));
    for (Piece& p : wall.laying.pieces) p.field = centroid(p.outline_mm).x > border ? 1 : 0;
    return wall.faults().of(FaultKind::row_end);
}

TEST(Faults, AHaloExcusesRowsThatEndAtItAndNoOthers) {
    // The halo's inner edge lies at 132 mm. Rows end 2 mm before it, then 38 mm, as far from it as from all
    // edges of the panel.
    EXPECT_EQ(row_ends_beside_a_halo(11 * kPitch_mm), 0u);
    EXPECT_EQ(row_ends_beside_a_halo(8 * kPitch_mm), 1u);
}

TEST(Faults, SmallHollowAndShortSided) {
    Wall wall;
    const std::size_t i = wall.at({65, 53});
    Ring& ring = wall.laying.pieces[i].outline_mm;
    const glm::dvec2 o = ring[0];
    // A bite of a right angle out of one corner: 270 degrees inside; sides of 2 mm beside it.
    ring = {o,
            o + glm::dvec2(10, 0),
            o + glm::dvec2(10, 8),
            o + glm::dvec2(8, 8),
            o + glm::dvec2(8, 10),
            o + glm::dvec2(0, 10)};
    LayingFaults faults = wall.faults();
    EXPECT_EQ(faults.of(FaultKind::hollow), 0u);  // 2 mm2 of its hull: a nick, no cut
    EXPECT_EQ(faults.of(FaultKind::short_side), 1u);
    ring = {o,
            o + glm::dvec2(10, 0),
            o + glm::dvec2(10, 5),
            o + glm::dvec2(5, 5),
            o + glm::dvec2(5, 10),
            o + glm::dvec2(0, 10)};
    faults = wall.faults();
    EXPECT_EQ(faults.of(FaultKind::hollow), 1u);
    ring = {o, o + glm::dvec2(10, 0), o + glm::dvec2(10, 3), o + glm::dvec2(0, 3)};
    faults = wall.faults();
    ASSERT_EQ(faults.of(FaultKind::small_piece), 1u);
    EXPECT_EQ(faults.of(FaultKind::short_side), 1u);
    for (const Fault& fault : faults.all)
        if (fault.kind == FaultKind::small_piece) {
            EXPECT_EQ(fault.piece, i);
            EXPECT_NEAR(fault.value, 30, 1e-9);
        }
}

TEST(Faults, Wedges) {
    for (const double wedge : {24.0, 26.0}) {
        Wall wall;
        Ring& ring = wall.laying.pieces[wall.at({65, 53})].outline_mm;
        const double in = kSide_mm * std::tan(glm::radians(wedge / 2));
        ring[2].x -= in;
        ring[3].x += in;
        const LayingFaults faults = wall.faults();
        EXPECT_EQ(faults.of(FaultKind::wedge), wedge > 25 ? 1u : 0u);
        EXPECT_NEAR(faults.tightest_wedge_deg, wedge, 1e-9);
    }
}

TEST(Faults, CrossingsOfAGridAreCounted) {
    Wall wall;
    wall.laying.pieces.clear();
    for (int y = 0; y < 5; ++y)
        for (int x = 0; x < 8; ++x)
            wall.laying.pieces.push_back(
                block(x * kPitch_mm, x * kPitch_mm + 10, y * kPitch_mm, y * kPitch_mm + 10));
    wall.layout.panel.width_mm = 8 * kPitch_mm - 2;
    wall.layout.panel.height_mm = 5 * kPitch_mm - 2;
    expect_only(wall.faults(), {{FaultKind::crossing, 4 * 7}});
    wall.layout.fields[0].opus = Opus::regulatum;  // in which they are the rule
    expect_only(wall.faults(), {});
}

TEST(Faults, AGapBesideAStone) {
    for (const double gap : {2.0, 3.0}) {
        Wall wall;
        const Ring hole = wall.laying.pieces[wall.at({65, 53})].outline_mm;
        wall.take_out(wall.at({65, 53}));
        SetStone set;
        set.footprint_mm = hole;
        set.footprint_mm[1].x -= gap - kJoint_mm;  // on its right the joint is `gap` wide
        set.footprint_mm[2].x -= gap - kJoint_mm;
        wall.laying.stones = {set};
        const LayingFaults faults = wall.faults();
        EXPECT_EQ(faults.of(FaultKind::stone_gap), gap > 2.6 ? 1u : 0u) << gap;  // 1.3 joints
        EXPECT_EQ(faults.of(FaultKind::row_end), 0u) << gap;                     // rows may end at stones
    }
}

TEST(Faults, ArcsOfFansEndWhereBaysMeet) {
    Layout layout = sample_layout(Opus::fans, 8.6, 8.6, 1.6);
    layout.panel.width_mm = layout.panel.height_mm = 140;
    layout.fields[0].fan_radius_mm = 66;  // bays that meet at a slant
    EXPECT_EQ(find_faults(layout, lay(layout)).of(FaultKind::row_end), 0u);
}

}  // namespace
}  // namespace rakelight
