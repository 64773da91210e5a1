// Markings against what they are said to be: shares, sizes and means by brute force at places of their own.
#include "materials/markings/marks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/markings/face_pattern.h"
#include "materials/markings/strand_fields.h"
#include "materials/maths/hash.h"

namespace rakelight {
namespace {

// Places at random, far apart; other ones than those by which marks are compiled.
template <class Visit>
void at_random(int places, Visit&& visit) {
    Rng rng(2026);
    for (int i = 0; i < places; ++i) {
        MarkedPlace p;
        p.at_mm = {rng.within(0, 3000), rng.within(0, 3000), rng.within(0, 300)};
        p.seed = static_cast<std::uint32_t>(rng.unit() * 1e9);
        visit(p);
    }
}

// A share of the face, in the mean over pieces of many sheets. Closed form: the share itself. Each place errs
// by at most half, so that 40,000 err by 0.0025 in the mean; four of those, and a quarter of the noise of
// where the field sets in.
TEST(Marks, ASecondColourTakesItsShareOfTheFace) {
    for (const Strand form : {Strand::streak, Strand::wisp, Strand::vein, Strand::crackle, Strand::cloud})
        for (const float share : {0.05f, 0.3f}) {
            Markings markings;
            markings.strands.push_back({.form = form, .share = share, .size_mm = 7, .length_mm = 30});
            const Marks marks = compile(markings, 6, false);
            ASSERT_EQ(marks.looks(), 1 + kStrandSteps);
            double sum = 0;
            constexpr int kPlaces = 40'000;
            at_random(kPlaces, [&](const MarkedPlace& p) {
                sum += static_cast<double>(look_at(marks, p).step) / kStrandSteps;
            });
            EXPECT_NEAR(sum / kPlaces, share, 0.015) << static_cast<int>(form);
        }
}

// The sheet's pull: colour changes less along it than across. Common sense of the word; no published source.
TEST(Marks, StreaksRunAlongTheSheet) {
    double along = 0, across = 0;
    at_random(4000, [&](const MarkedPlace& p) {
        const glm::vec3 scale(2.f / 90, 2.f / 7, 2.f / 7);
        const auto field = [&](const glm::vec3& at) {
            return static_cast<double>(strand_field(Strand::streak, at * scale, p.seed));
        };
        const double here = field(p.at_mm);
        along += std::abs(field(p.at_mm + glm::vec3(0.5f, 0, 0)) - here);
        across += std::abs(field(p.at_mm + glm::vec3(0, 0.5f, 0)) - here);
    });
    EXPECT_GT(across, 3 * along);
}

// Balls of radius r, n to an area, cover n pi E(r^2) of it where they do not overlap: the radius is half the
// size times 0.4 + 1.8 u^2, whose mean is 1 and whose square has the mean 0.16 + 0.48 + 0.648 (closed form);
// drawn out along the sheet by 1 + 0.7 u v, mean 1.175. Rays farther out than 0.9 of a seed's radius meet it
// only in part.
TEST(Marks, SeedsCoverAsMuchOfTheFaceAsTheirNumberAndSizeSay) {
    Markings markings;
    markings.seeds = {1, 2};
    const Marks marks = compile(markings, 6, false);
    int met = 0;
    constexpr int kPlaces = 200'000;
    at_random(kPlaces, [&](const MarkedPlace& p) { met += look_at(marks, p).step > 0; });
    const double covered = 2 * std::numbers::pi * 0.25 * 1.288 * 1.175 / 100;
    EXPECT_NEAR(met / static_cast<double>(kPlaces), covered * 0.91, 0.12 * covered);
}

TEST(Marks, ASeedShowsWhatLiesBehindItApart) {
    // Two rays that pass a seed a little to the left and to the right of its middle see places farther apart
    // than they are themselves: Snell's law at a hollow lens.
    Markings markings;
    markings.seeds = {3, 1};
    const Marks marks = compile(markings, 6, false);
    EXPECT_EQ(marks.first_seed_look, 1);
    int hearts = 0, rims = 0;
    at_random(50'000, [&](const MarkedPlace& p) {
        const SeenMarking look = look_at(marks, p);
        hearts += look.step == 1;
        rims += look.step == 2;
    });
    // Total reflection beyond 1/n: hearts reach to 0.66 of the radius, rims from there to 0.9.
    EXPECT_NEAR(rims / static_cast<double>(hearts), 0.9 * 0.9 / (0.66 * 0.66) - 1, 0.25);
}

// A lens gathers light, it makes none.
TEST(Marks, CordsLeaveTheMeanAsItIs) {
    Markings markings;
    markings.cords = {0.5f, 2};
    const Marks marks = compile(markings, 6, false);
    double sum = 0, squares = 0;
    constexpr int kPlaces = 60'000;
    at_random(kPlaces, [&](const MarkedPlace& p) {
        const double scale = look_at(marks, p).scale;
        sum += scale;
        squares += scale * scale;
    });
    EXPECT_NEAR(sum / kPlaces, 1, 0.01);
    EXPECT_GT(squares / kPlaces - 1, 0.005);
}

// The slope is the height's derivative (central differences), and as steep as is said.
TEST(FacePattern, NormalsAreThoseOfTheHeight) {
    for (const Pattern pattern : {Pattern::rolled, Pattern::hammered, Pattern::rippled, Pattern::granite,
                                  Pattern::stippled, Pattern::blowholes}) {
        double squares = 0;
        const int places = pattern == Pattern::blowholes ? 1'000'000 : 20'000;  // holes are few
        Rng rng(5);
        for (int i = 0; i < places; ++i) {
            const glm::vec2 at(rng.within(0, 90), rng.within(0, 90));
            const auto seed = static_cast<std::uint32_t>(i);
            const PatternSample here = pattern_at(pattern, at, seed);
            squares += static_cast<double>(glm::dot(here.slope, here.slope)) / 2;
            if (i > 400) continue;
            constexpr float kStep = 0.01f;
            const auto height = [&](const glm::vec2& off) {
                return pattern_at(pattern, at + off, seed).height;
            };
            EXPECT_NEAR((height({kStep, 0}) - height({-kStep, 0})) / (2 * kStep), here.slope.x, 0.02);
            EXPECT_NEAR((height({0, kStep}) - height({0, -kStep})) / (2 * kStep), here.slope.y, 0.02);
        }
        EXPECT_NEAR(std::sqrt(squares / places), pattern_slope(pattern), 0.05 * pattern_slope(pattern));
    }
}

TEST(FacePattern, NoneIsFlat) {
    const PatternSample s = pattern_at(Pattern::none, {3.3f, 4.4f}, 9);
    EXPECT_EQ(s.height, 0);
    EXPECT_EQ(s.slope, glm::vec2(0));
}

}  // namespace
}  // namespace rakelight
