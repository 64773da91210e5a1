// Differential rendering against its closed forms, and the light of a photograph against its own statement.
#include <gtest/gtest.h>

#include <cmath>

#include "output/in_photograph/photographed_light.h"
#include "output/in_photograph/set_in.h"
#include "scene/surround/all_round.h"

namespace rakelight {
namespace {

// Wall at the left, panel at the right, a column between that both share.
SetIn half_and_half(float shadow) {
    SetIn p;
    p.width = 40, p.height = 8;
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x) {
            const float covered = x < 20 ? 0.f : x == 20 ? 0.25f : 1.f;
            p.photograph.push_back(glm::vec3(0.1f + 0.01f * static_cast<float>(x), 0.3f, 0.2f));
            p.without.emplace_back(0.5f);
            p.with.push_back(covered * glm::vec3(0.8f, 0.1f, 0.05f) +
                             (1 - covered) * glm::vec3(shadow * 0.5f));
            p.covered.push_back(covered);
            p.reach.push_back(1);
        }
    return p;
}

}  // namespace

// Debevec 1998, with the wall's own reflectance: photograph + (with - without) * photograph / without.
TEST(SetIn, TheWallChangesAsTheRenderingDoesAndThePanelIsSeen) {
    const SetIn p = half_and_half(0.6f);
    const Composed made = set_in(p, 0);
    for (std::size_t i = 0; i < p.with.size(); ++i) {
        const glm::vec3 wall =
            p.photograph[i] + (glm::vec3(0.3f) - p.without[i]) * p.photograph[i] / p.without[i];
        const glm::vec3 wanted = p.covered[i] * glm::vec3(0.8f, 0.1f, 0.05f) + (1 - p.covered[i]) * wall;
        for (int c = 0; c < 3; ++c) EXPECT_NEAR(made.rgb[i][c], wanted[c], 1e-5) << i << " " << c;
        EXPECT_FLOAT_EQ(made.panel[i], p.covered[i]);
    }
}

TEST(SetIn, AWallThatDoesNotChangeIsThePhotographToTheBit) {
    const SetIn p = half_and_half(1);
    const Composed made = set_in(p, 0);
    for (std::size_t i = 0; i < p.with.size(); ++i)
        if (p.covered[i] == 0) {
            EXPECT_EQ(made.rgb[i], p.photograph[i]);
        }
}

TEST(SetIn, WhatStandsInFrontIsKept) {
    SetIn p = half_and_half(0.6f);
    p.in_front.assign(p.with.size(), 0);
    for (std::size_t i = 0; i < p.in_front.size(); i += 3) p.in_front[i] = 1;
    const Composed made = set_in(p, 0.8);
    for (std::size_t i = 0; i < p.in_front.size(); i += 3) {
        EXPECT_EQ(made.rgb[i], p.photograph[i]);
        EXPECT_EQ(made.panel[i], 0);
    }
}

// The edge of the panel becomes the integral of the Gaussian that it is softened by.
TEST(SetIn, IsAsSoftAsAsked) {
    SetIn p = half_and_half(1);
    for (std::size_t i = 0; i < p.with.size(); ++i) {
        p.covered[i] = i % 40 < 20 ? 0.f : 1.f;
        p.with[i] = p.covered[i] > 0 ? glm::vec3(0.8f) : glm::vec3(0.5f);
        p.photograph[i] = glm::vec3(0.2f);
    }
    constexpr double kSigma_px = 1.5;
    const Composed made = set_in(p, kSigma_px);
    for (int x = 12; x < 28; ++x) {
        const double share = 0.5 * std::erfc(-(x - 19.5) / kSigma_px / std::sqrt(2.0));
        EXPECT_NEAR(made.rgb[static_cast<std::size_t>(4 * 40 + x)].x, 0.2 + 0.6 * share, 0.012) << x;
    }
}

TEST(PhotographedLight, GivesThePanelWhiteLightOfWhichItsShareIsTheMainOne) {
    MainLight main;
    main.share = 0.7;
    const glm::dvec3 mean(0.5, 0.4, 0.35);
    const Lighting light = photographed_light(mean, main);
    const SurroundPicture& picture = light.all_round->picture->picture();
    glm::dvec3 plane(0), even(0);
    for (int y = 0; y < picture.height_px; ++y)
        for (int x = 0; x < picture.width_px; ++x) {
            const glm::dvec3 d(pixel_direction(picture, x, y));
            if (d.z <= 0) continue;
            const glm::dvec3 rgb(picture.rgb[static_cast<std::size_t>(y) * picture.width_px + x]);
            plane += rgb * d.z * pixel_sr(picture, y);
            if (glm::dot(d, glm::dvec3(-0.32, 0.77, 0.55)) < 0.9) even += rgb * d.z * pixel_sr(picture, y);
        }
    for (int c = 0; c < 3; ++c) EXPECT_NEAR(plane[c], 1, 0.002);
    EXPECT_NEAR(double(luminance_of(glm::vec3(even))), 0.3, 0.06);
    EXPECT_NEAR(even.x / even.z, mean.x / mean.z, 0.01);  // of the photograph's colour
}

}  // namespace rakelight
