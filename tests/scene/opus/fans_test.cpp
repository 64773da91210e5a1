// Fans: arcs of one radius, in bays. Rules: common practice, no published source; the wedge of a piece on an
// arc is P / R.
#include <gtest/gtest.h>

#include <string>

#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/opus.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

constexpr double kRadius_mm = 90;

class Fans : public ::testing::TestWithParam<bool> {
  protected:
    void SetUp() override {
        layout = sample_layout(Opus::fans, 10, 9, 1.5);
        layout.fields[0].fan_radius_mm = kRadius_mm;
        if (GetParam()) layout.fields[0].outline = bean();
        pieces = lay(layout).pieces;
        ASSERT_GT(pieces.size(), 300u);
    }
    Layout layout;
    std::vector<Piece> pieces;
};

// Whether another stone of its row stands on each side; the last ones of an arc are cut to fit its end.
bool between_two(const Piece& piece, const std::vector<Piece>& all) {
    const glm::dvec2 c = centroid(piece.outline_mm);
    bool before = false, after = false;
    for (const auto& other : all) {
        const glm::dvec2 way = centroid(other.outline_mm) - c;
        const double along = glm::dot(way, piece.along);
        if (std::abs(along) < 6 || glm::length(way) > 17 || std::abs(along) < 0.98 * glm::length(way))
            continue;
        (along > 0 ? after : before) = true;
    }
    return before && after;
}

TEST_P(Fans, NothingOverlaps) {
    EXPECT_LT(largest_overlap_mm2(pieces), 1e-6);
}

TEST_P(Fans, JointsAreEven) {
    const auto joints = joints_mm(pieces, 4, 3);
    ASSERT_GT(joints.size(), 500u);
    const auto [mean, sd] = mean_and_sd(joints);
    EXPECT_NEAR(mean, 1.5, 0.05 * 1.5);
    EXPECT_LT(sd, 0.25 * 1.5);
}

TEST_P(Fans, NeighboursTurnAsOnAnArcOfTheRadius) {
    // Along a row, the direction turns by the distance over the radius: from piece to the next beside it.
    std::vector<double> radii;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const glm::dvec2 a = centroid(pieces[i].outline_mm), b = centroid(pieces[j].outline_mm);
            const double d = glm::distance(a, b);
            if (d > 14 || d < 8) continue;
            const glm::dvec2 chord = (b - a) / d;
            glm::dvec2 u = pieces[i].along, v = pieces[j].along;
            if (glm::dot(u, chord) < 0) u = -u;
            if (glm::dot(v, chord) < 0) v = -v;
            if (glm::dot(u, chord) < 0.985 || glm::dot(v, chord) < 0.985) continue;
            radii.push_back(std::acos(std::clamp(glm::dot(u, v), -1.0, 1.0)) / d);
        }
    ASSERT_GT(radii.size(), 150u);
    const double curvature = mean_and_sd(radii).first;
    EXPECT_NEAR(1 / curvature, kRadius_mm, 0.12 * kRadius_mm);
}

TEST_P(Fans, KeystonesCanBeCutByHand) {
    // Wedge: the angle between a piece's two head joints. P / R is 7 degrees here; 25 is the most a nipper
    // cuts.
    int wedged = 0, counted = 0;
    double sum = 0;
    for (const auto& piece : pieces) {
        const Ring& ring = piece.outline_mm;
        std::vector<glm::dvec2> heads;
        for (std::size_t k = 0; k < ring.size(); ++k) {
            const glm::dvec2 side = ring[(k + 1) % ring.size()] - ring[k];
            if (glm::length(side) > 5 &&
                std::abs(glm::dot(glm::normalize(side), piece.along)) < std::sin(glm::radians(30.0)))
                heads.push_back(glm::normalize(side));
        }
        if (heads.size() != 2 || !between_two(piece, pieces)) continue;
        const double wedge = glm::degrees(std::acos(std::min(1.0, std::abs(glm::dot(heads[0], heads[1])))));
        sum += wedge;
        wedged += wedge > 25;
        ++counted;
    }
    ASSERT_GT(counted, 200);
    EXPECT_LE(wedged, counted / 100);
    EXPECT_NEAR(sum / counted, glm::degrees(11.5 / kRadius_mm), 4);
}

INSTANTIATE_TEST_SUITE_P(Fields, Fans, ::testing::Values(false, true),
                         [](const auto& test) { return std::string(test.param ? "bean" : "straight"); });

}  // namespace
}  // namespace rakelight
