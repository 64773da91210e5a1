// Rows broken by hand: the phase of straight rows with pairs of dislocations put in, in closed form.
#include "scene/flow/dislocations.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "scene/geometry/polygon.h"

namespace rakelight {
namespace {

constexpr double kRow_mm = 9, kStep_mm = 2;

// Rows along x, and round each of `plus` a turn more, round each of `minus` a turn less.
struct Broken {
    Lattice lattice = lattice_over({{0, 0}, {200, 120}}, kStep_mm);
    std::vector<glm::dvec2> normal{lattice.count(), glm::dvec2(0, 1)};
    PhaseLattice phases{lattice.columns, lattice.rows, std::vector<Phase>(lattice.count()),
                        std::vector<std::uint8_t>(lattice.count(), 0),
                        std::vector<std::array<PhaseLink, 4>>(lattice.count())};
    Broken(const std::vector<glm::dvec2>& plus, const std::vector<glm::dvec2>& minus) {
        const double turns = 2 * std::numbers::pi / kRow_mm;
        for (int y = 0; y < lattice.rows; ++y)
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                const glm::dvec2 p = lattice.at(x, y);
                double phase = turns * p.y;
                for (const auto& c : plus) phase += std::atan2(p.y - c.y, p.x - c.x);
                for (const auto& c : minus) phase -= std::atan2(p.y - c.y, p.x - c.x);
                phases.phase[i] = {static_cast<float>(std::cos(phase)), static_cast<float>(std::sin(phase))};
                for (std::size_t k = 0; k < 4; ++k) {
                    const double gain = turns * kStep_mm * kHalfStar[k][1];
                    phases.links[i][k].turn = {static_cast<float>(std::cos(gain)),
                                               static_cast<float>(std::sin(gain))};
                }
            }
    }
};

TEST(Dislocations, LieWhereThePhaseWindsOnce) {
    const Broken broken({{61, 47}, {130, 80}}, {{95, 33}});
    const auto found = dislocations(broken.phases);
    ASSERT_EQ(found.size(), 3u);
    for (const auto& d : found) {
        const glm::dvec2 at = broken.lattice.at(d.x, d.y) + kStep_mm / 2;
        const glm::dvec2 is = d.sense < 0 ? glm::dvec2(95, 33)
                              : at.x < 95 ? glm::dvec2(61, 47)
                                          : glm::dvec2(130, 80);
        EXPECT_LE(glm::distance(at, is), kStep_mm);
    }
}

TEST(Dislocations, ARowThatWasBrokenIsOneAgain) {
    // An end and a beginning five rows apart along the row and one across; a third too far off for either.
    Broken broken({{80, 50}, {20, 100}}, {{125, 58}});
    EXPECT_EQ(join_broken_rows(broken.phases, broken.lattice, broken.normal, kRow_mm), 1);
    relax(broken.phases, 40);
    const auto left = dislocations(broken.phases);
    ASSERT_EQ(left.size(), 1u);
    EXPECT_LT(glm::distance(broken.lattice.at(left[0].x, left[0].y), glm::dvec2(20, 100)), 10);
}

TEST(Dislocations, RowsBornOneAfterAnotherStay) {
    Broken broken({{60, 50}, {90, 55}, {120, 60}}, {});
    EXPECT_EQ(join_broken_rows(broken.phases, broken.lattice, broken.normal, kRow_mm), 0);
    EXPECT_EQ(dislocations(broken.phases).size(), 3u);
}

TEST(Dislocations, NothingIsLedOverAGuide) {
    Broken broken({{80, 45}}, {{85, 60}});
    for (int x = 0; x < broken.lattice.columns; ++x)
        broken.phases.pinned[broken.lattice.index(x, 28)] = 1;  // 52 mm up, between the two
    EXPECT_EQ(join_broken_rows(broken.phases, broken.lattice, broken.normal, kRow_mm), 0);
}

TEST(Dislocations, ARowTurnedRoundSaysTheSame) {
    // The same rows seen by normals that point down on the right half: phases are mirrored there.
    Broken broken({{80, 50}}, {{125, 58}});
    const int half = broken.lattice.columns / 2;
    for (int y = 0; y < broken.lattice.rows; ++y)
        for (int x = 0; x < broken.lattice.columns; ++x) {
            const std::size_t i = broken.lattice.index(x, y);
            if (x >= half) {
                broken.normal[i] = {0, -1};
                broken.phases.phase[i].im *= -1;
                for (auto& link : broken.phases.links[i]) link.turn.im *= -1;
            }
            for (std::size_t k = 0; k < 4; ++k)
                broken.phases.links[i][k].flips = (x >= half) != (x + kHalfStar[k][0] >= half);
        }
    ASSERT_EQ(dislocations(broken.phases).size(), 2u);
    EXPECT_EQ(join_broken_rows(broken.phases, broken.lattice, broken.normal, kRow_mm), 1);
    relax(broken.phases, 40);
    EXPECT_TRUE(dislocations(broken.phases).empty());
}

}  // namespace
}  // namespace rakelight
