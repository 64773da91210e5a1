#include "output/board/numbers.h"

#include <gtest/gtest.h>

#include <cmath>

#include "materials/colour/ciede2000.h"

namespace rakelight {
namespace {

const Xyz kWhite{95.047, 100, 108.883};  // D65, CIE 015:2018

glm::dvec3 light(const Lab& lab) {
    const Xyz xyz = lab_to_xyz(lab, kWhite);
    return {xyz.x, xyz.y, xyz.z};
}

// A cell of upright stripes: joints `joint_px` wide every `pitch_px`.
struct Striped {
    Film film;
    std::vector<Seen> kinds;
    CellLight cell;

    Striped(const Lab& joint, const Lab& piece, int joint_px, int pitch_px, double mm_per_px) {
        film.width = 60 * pitch_px;
        film.height = 6;
        film.xyz.resize(1);
        const double share = static_cast<double>(joint_px) / pitch_px;
        for (int i = 0; i < film.width * film.height; ++i) {
            const bool in_joint = i % film.width % pitch_px < joint_px;
            film.xyz[0].emplace_back(light(in_joint ? joint : piece));
            kinds.push_back(in_joint ? Seen::joint : Seen::piece);
        }
        cell.film = &film;
        const SeenLight nothing{0, {glm::dvec3(0)}, {glm::dvec3(0)}};
        cell.seen = {nothing, SeenLight{1 - share, {light(piece)}, {light(piece)}},
                     SeenLight{share, {light(joint)}, {light(joint)}}, nothing};
        cell.white = kWhite;
        cell.mm_per_px = mm_per_px;
        cell.joint_mm = joint_px * mm_per_px;
        cell.of_pixels = &kinds;
    }
    Striped(const Striped&) = delete;
    Striped& operator=(const Striped&) = delete;
    CellNumbers count() const { return count_cells(std::span(&cell, 1))[0]; }
};

TEST(BoardNumbers, JointAgainstPiece) {
    const Lab joint{30, 2, -5}, piece{52, -12, -20};
    const CellNumbers n = Striped(joint, piece, 3, 20, 0.5).count();
    EXPECT_NEAR(n.joint->l, 30, 1e-6);
    EXPECT_NEAR(n.piece.b, -20, 1e-6);
    EXPECT_NEAR(n.delta_l, -22, 1e-6);
    EXPECT_NEAR(n.contrast, ciede2000(joint, piece), 1e-6);
    EXPECT_NEAR(n.resolves_to_m, 1.5 * 3.4377, 1e-3);  // 1.5 mm under one minute of arc
    EXPECT_NEAR(n.line_to_m, n.resolves_to_m / 3, 1e-12);
}

// Grassmann: the mean is the areas' tristimulus values, added; no mean of Lab.
TEST(BoardNumbers, LightMixesByAreaAndNotAsLab) {
    const Lab joint{95, 0, 0}, piece{20, 5, -40};
    const CellNumbers n = Striped(joint, piece, 10, 20, 0.5).count();
    const glm::dvec3 mixed = 0.5 * light(joint) + 0.5 * light(piece);
    EXPECT_NEAR(n.mean_xyz.x, mixed.x, 0.01 * mixed.x);
    EXPECT_NEAR(n.mean_xyz.y, mixed.y, 0.01 * mixed.y);
    EXPECT_NEAR(n.mean_xyz.z, mixed.z, 0.01 * mixed.z);
    EXPECT_GT(n.mean.l, (95 + 20) / 2.0 + 5);
}

// From far enough an eye sees only the mean, in the pieces and in the joints; but for the left edge, where
// the mirrored picture has a joint of double width.
TEST(BoardNumbers, FarAwayPiecesAndJointsAreOne) {
    const Lab joint{80, 0, 5}, piece{45, -10, -15};
    const CellNumbers near = Striped(joint, piece, 8, 40, 0.1).count();  // 0.8 mm every 4 mm
    EXPECT_LT(near.seen_at[1].ciede2000, near.seen_at[0].ciede2000);
    EXPECT_LT(near.seen_at[0].ciede2000, near.contrast);
    const CellNumbers far = Striped(joint, piece, 1, 5, 0.1).count();  // 0.1 mm every 0.5 mm
    EXPECT_LT(far.seen_at[1].ciede2000, 0.1);
    EXPECT_NEAR(ciede2000(far.seen_at[1].pieces, far.mean), 0, 0.1);
    // An eighth of the size fades from an eighth of the distance: all is angles.
    EXPECT_NEAR(near.net_fades_m, 8 * far.net_fades_m, 0.08 * near.net_fades_m);
}

TEST(BoardNumbers, AGroutLikeItsPiecesHasNoNet) {
    const CellNumbers n = Striped({45, -10, -15}, {45.5, -10, -15}, 4, 20, 0.5).count();
    EXPECT_EQ(n.net_fades_m, 0);
}

TEST(BoardNumbers, SaturationIsChromasShare) {
    EXPECT_NEAR(saturation({40, 30, 0}), 60, 1e-9);  // 3-4-5
    EXPECT_EQ(saturation({50, 0, 0}), 0);
    EXPECT_EQ(saturation({0, 0, 0}), 0);
}

TEST(BoardNumbers, RanksByWhatTheArtistAskedFor) {
    BoardPlan plan;
    plan.rows.resize(1);
    plan.columns.resize(3);
    plan.reference_column = 1;
    const auto ranks = [&](BoardAim aim) {
        plan.aim = aim;
        std::vector<CellNumbers> cells(3);
        cells[0].contrast = 5, cells[0].delta_l = -30, cells[0].mean = {40, 10, 0},
        cells[0].piece = {40, 30, 0};
        cells[1].contrast = 2, cells[1].delta_l = 1, cells[1].mean = {50, 30, 0},
        cells[1].piece = {50, 30, 0};
        cells[2].contrast = 9, cells[2].delta_l = 12, cells[2].mean = {80, 2, 0},
        cells[2].piece = {55, 20, 0};
        compare_cells(plan, cells);
        EXPECT_NEAR(cells[0].shift_l, -10, 1e-12);
        EXPECT_GT(cells[0].shift_saturation, 0);
        EXPECT_EQ(cells[1].shift_ciede2000, 0);
        EXPECT_NEAR(cells[2].shift_c, -10, 1e-12);
        return std::array{cells[0].rank.value_or(0), cells[1].rank.value_or(0), cells[2].rank.value_or(0)};
    };
    EXPECT_EQ(ranks(BoardAim::blend), (std::array{2, 1, 3}));
    EXPECT_EQ(ranks(BoardAim::show_flow), (std::array{1, 3, 2}));
    // By the pieces, whatever the joints make of the mean.
    EXPECT_EQ(ranks(BoardAim::deepen_colour), (std::array{1, 2, 3}));
    EXPECT_EQ(ranks(BoardAim::none), (std::array{0, 0, 0}));
}

// A terracotta joint makes the mean of a dark blue lake more colourful, and its glass no deeper.
TEST(BoardNumbers, DeepenColourIsOfTheGlass) {
    BoardPlan plan;
    plan.rows.resize(1);
    plan.columns.resize(2);
    plan.aim = BoardAim::deepen_colour;
    std::vector<CellNumbers> cells(2);
    cells[0].glass = cells[0].piece = Lab{22, 2, -18};  // terracotta
    cells[0].mean = {35, 22, 20};
    cells[1].glass = cells[1].piece = Lab{18, 3, -24};  // charcoal
    cells[1].mean = {20, 2, -14};
    compare_cells(plan, cells);
    EXPECT_EQ(cells[0].rank, 2);
    EXPECT_EQ(cells[1].rank, 1);
}

}  // namespace
}  // namespace rakelight
