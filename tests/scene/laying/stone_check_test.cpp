#include "scene/laying/stone_check.h"

#include <gtest/gtest.h>

#include "scene/forms/stone_body.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "tests/support/laying_samples.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout with_stones(const std::vector<glm::dvec3>& at_and_proud, const char* form = "pebble") {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    for (const auto& s : at_and_proud) {
        PlacedStone stone;
        stone.material = kSlate;
        stone.at_mm = glm::dvec2(s);
        stone.size_mm = {40, 30, 24};
        stone.proud_mm = s.z;
        stone.form = form;
        stone.seed = 5;
        stone.place = {"t.yaml", 7, 3};
        layout.stones.push_back(stone);
    }
    return layout;
}

std::string problems_of(const Layout& layout) {
    return refusal_of([&] { lay(layout); });
}

TEST(StoneCheck, DepthIsThatOfTheSolid) {
    const Layout layout = with_stones({{200, 150, 14}});
    SetStone set;
    set.stone = layout.stones[0];
    set.top_mm = 40;
    for (const char* form : {"pebble", "chunk"}) {
        set.stone.form = form;
        const StoneShape shape(set, layout.stock[1]);
        const glm::dvec3 heart(200, 150, 28);
        // On its own surface a point is neither in nor out, and along the way to the heart it sinks in.
        for (const auto& p : shape.mesh(2).positions_mm) {
            EXPECT_NEAR(shape.depth_mm(glm::dvec3(p)), 0, 0.02);
            EXPECT_GT(shape.depth_mm(glm::mix(glm::dvec3(p), heart, 0.3)), 0.5);
            EXPECT_LT(shape.depth_mm(glm::mix(glm::dvec3(p), heart, -0.2)), -0.5);
        }
    }
}

TEST(StoneCheck, TwoStonesCannotShareAPlace) {
    // Boxes 40 mm long end to end: apart at 41, 5 mm in one another at 35.
    EXPECT_EQ(problems_of(with_stones({{200, 150, 14}, {241, 150, 14}})), "");
    const std::string text = problems_of(with_stones({{200, 150, 14}, {235, 150, 14}}));
    EXPECT_NE(text.find("t.yaml:7:3: stones[2].at: found a stone that stands"), std::string::npos);
    EXPECT_NE(text.find("in stones[1]"), std::string::npos);
    const Layout layout = with_stones({{200, 150, 14}, {235, 150, 14}});
    SetStone a, b;
    a.stone = layout.stones[0];
    b.stone = layout.stones[1];
    a.top_mm = b.top_mm = 40;
    // The two are alike: the end of each, at x = 220 and 215, has its neighbour's surface 5 mm off.
    EXPECT_NEAR(overlap_mm(a, layout.stock[1], b, layout.stock[1]), 5, 1.2);
}

TEST(StoneCheck, AStoneReachesIntoItsBed) {
    EXPECT_EQ(problems_of(with_stones({{200, 150, 20}})), "");
    const std::string text = problems_of(with_stones({{200, 150, 22.5}}));
    EXPECT_NE(text.find("stones[1].proud: found 22.5 mm of a stone 24 mm high"), std::string::npos);
}

TEST(StoneCheck, NoStoneStandsInTheFrame) {
    Layout layout = with_stones({{18, 150, 14}});
    EXPECT_EQ(problems_of(layout), "");
    layout.panel.frame = Frame{kSlate, 20, 6, 0};
    EXPECT_NE(problems_of(layout).find("stands 2.0 mm in the frame"), std::string::npos);
    layout.panel.frame->gap_mm = 3;
    EXPECT_EQ(problems_of(layout), "");
}

TEST(StoneCheck, WhatTheBoardWouldHoldIsGroundOff) {
    Layout layout = with_stones({{200, 150, 5}});  // 19 mm under a plane of 10
    const Laying laying = lay(layout);
    const Mesh mesh = stone_body(laying.stones[0], layout.stock[1], 4);
    for (const auto& p : mesh.positions_mm) EXPECT_GE(p.z, 0);
}

TEST(StoneCheck, ReliefDoesNotGrowWithTheStone) {
    // The same material, three times the size: what a mean over a neighbourhood of 1 mm leaves of the surface
    // is as high. Relief is told in millimetres from the heart, so the statistics must agree however far out.
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    for (const auto stuff : {1u, 2u, 3u}) {
        const auto roughness = [&](float radius) {
            double sum = 0;
            constexpr int kCount = 4000;
            for (int i = 0; i < kCount; ++i) {
                const float z = 2 * (static_cast<float>(i) + 0.5f) / kCount - 1,
                            turn = 2.399963f * static_cast<float>(i);
                const glm::vec3 dir(std::sqrt(1 - z * z) * std::cos(turn),
                                    std::sqrt(1 - z * z) * std::sin(turn), z);
                const glm::vec3 side = glm::normalize(glm::cross(dir, glm::vec3(0.3f, 0.9f, 0.2f)));
                const auto at = [&](const glm::vec3& p) {
                    return static_cast<double>(stone_relief_mm(layout.stock[stuff], false, p, 3));
                };
                sum += std::pow(at(radius * dir + 0.5f * side) - at(radius * dir - 0.5f * side), 2);
            }
            return std::sqrt(sum / kCount);
        };
        const double small = roughness(10), large = roughness(30);
        EXPECT_GT(small, 0.005);
        EXPECT_NEAR(large / small, 1, 0.25);
    }
}

}  // namespace
}  // namespace rakelight
