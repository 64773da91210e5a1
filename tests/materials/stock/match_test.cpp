#include "materials/stock/match.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <stdexcept>

#include "materials/colour/ciede2000.h"

namespace rakelight {
namespace {

/// Knuth's 64-bit linear congruential generator (The Art of Computer Programming, vol. 2), 0..1.
struct Chance {
    std::uint64_t state;
    double operator()() {
        state = state * 6364136223846793005u + 1442695040888963407u;
        return static_cast<double>(state >> 11) * 0x1p-53;
    }
    std::size_t below(std::size_t n) { return static_cast<std::size_t>((*this)() * static_cast<double>(n)); }
};

std::vector<Pigment> named(std::initializer_list<const char*> names) {
    std::vector<Pigment> r;
    for (const char* name : names) r.push_back(*find_pigment(name));
    return r;
}

MatchRequest request_in(const char* base) {
    MatchRequest q;
    q.base.base = *find_base(base);
    q.base.thickness_mm = q.base.base.thickness_mm;
    q.pigments = named({"PW6", "PBk11", "PR101", "PY42", "PBr7", "PB28", "PG17", "PG18"});
    return q;
}

// What the forward model can make, the search must find. 0.5 is half of what is just noticeable.
TEST(Match, FindsTwoHundredKnownRecipes) {
    Chance chance{7};
    double worst = 0;
    for (int i = 0; i < 200; ++i) {
        MatchRequest q = request_in(i % 4 < 2 ? "white-cement" : i % 4 == 2 ? "grey-cement" : "filled-epoxy");
        Recipe made = q.base;
        std::vector<Pigment> left = q.pigments;
        const std::size_t count = 1 + chance.below(3);
        for (std::size_t k = 0; k < count; ++k) {
            const auto at = static_cast<std::ptrdiff_t>(chance.below(left.size()));
            const Pigment p = left[static_cast<std::size_t>(at)];
            left.erase(left.begin() + at);
            made.doses.push_back({p, (0.02 + 0.3 * chance()) * dose_limit(q.base.base, p)});
        }
        q.wanted.curve = seen_reflectance(made);
        q.batch_g = 1000;
        const std::vector<Match> found = match(q);
        ASSERT_FALSE(found.empty());
        worst = std::max(worst, found[0].delta_e);
        EXPECT_LT(found[0].delta_e, 0.5) << "recipe " << i;
        EXPECT_TRUE(recipe_warnings(found[0].recipe).empty()) << "recipe " << i;
    }
    RecordProperty("worst_ciede2000", std::to_string(worst));
}

// A pigment by itself is found again gram for gram: no other mixture is as near with as few.
TEST(Match, FindsTheGrams) {
    MatchRequest q = request_in("white-cement");
    Recipe made = q.base;
    made.doses = {{*find_pigment("PR101"), 0.05}};
    q.wanted.curve = seen_reflectance(made);
    const Match best = match(q, 1).at(0);
    ASSERT_EQ(best.grams.size(), 1u);
    EXPECT_EQ(best.recipe.doses[0].pigment.name, "PR101");
    EXPECT_NEAR(best.grams[0], 500 * 0.4 * 0.05, 0.1);  // 5 % of the cement in 500 g of powder, 1 % of that
    for (const UnderLamp& lamp : best.lamps) EXPECT_LT(lamp.delta_e, 0.1) << lamp.light;  // the same stuff
}

TEST(Match, ReportsTheLampsAndADrift) {
    MatchRequest q = request_in("white-cement");
    q.pigments = named({"PBk11", "PR101", "PG17", "PW6"});
    Recipe made = q.base;
    made.doses = {{*find_pigment("PBr7"), 0.03}};  // not among those to match with
    q.wanted.curve = seen_reflectance(made);
    const Match best = match(q, 1).at(0);
    EXPECT_LT(best.delta_e, 0.5);
    ASSERT_EQ(best.lamps.size(), 3u);
    EXPECT_EQ(best.lamps[0].light, "D65");
    EXPECT_EQ(best.lamps[1].light, "A");
    EXPECT_EQ(best.lamps[2].light, "LED-B3");
    EXPECT_DOUBLE_EQ(best.lamps[0].delta_e, best.delta_e);
    EXPECT_GT(best.lamps[1].delta_e, best.delta_e);  // other pigments, so only a metameric match
    q.light = "F11";
    EXPECT_EQ(match(q, 1).at(0).lamps.size(), 4u);
}

TEST(Match, WhatCannotBeReachedIsFarOff) {
    MatchRequest q = request_in("white-cement");
    q.wanted.lab = {60, 90, 60};  // redder than any of these
    const Match best = match(q, 1).at(0);
    EXPECT_GT(best.delta_e, 10);  // threshold of our own, only to catch a slip; so is the next
    EXPECT_NEAR(best.delta_e, ciede2000(best.lamps[0].lab, q.wanted.lab), 1e-9);
    q.wanted.lab = {99, 0, 0};  // whiter than the base
    EXPECT_GT(match(q, 1).at(0).delta_e, 1);
}

TEST(Match, KeepsToLimitsAndScale) {
    MatchRequest q = request_in("white-cement");
    q.wanted.lab = {5, 0, 0};  // wants all the black there may be
    q.scale_g = 0.5;
    for (const Match& m : match(q, 5)) {
        double total = 0;
        for (std::size_t i = 0; i < m.grams.size(); ++i) {
            const Dose& dose = m.recipe.doses[i];
            EXPECT_NEAR(std::remainder(m.grams[i], q.scale_g), 0, 1e-9);
            EXPECT_NEAR(dose.share, m.grams[i] / 200, 1e-12);
            EXPECT_LE(dose.share, dose_limit(q.base.base, dose.pigment) + 1e-9);
            total += m.grams[i];
        }
        EXPECT_LE(total, 200 * kCementTotalLimit + 1e-9);
        EXPECT_TRUE(recipe_warnings(m.recipe).empty());
    }
}

TEST(Match, RecipesDifferAndRunFromBestToWorst) {
    MatchRequest q = request_in("white-cement");
    q.wanted.lab = {50, -5, 10};
    q.most_pigments = 2;
    const std::vector<Match> found = match(q, 4);
    ASSERT_EQ(found.size(), 4u);
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_LE(found[i].recipe.doses.size(), 2u);
        for (std::size_t j = 0; j < i; ++j) {
            EXPECT_LE(found[j].delta_e, found[i].delta_e + 0.05 * 2);
            bool another = false;  // a pigment of the better one is not in the worse one
            for (const Dose& d : found[j].recipe.doses)
                another |= std::none_of(found[i].recipe.doses.begin(), found[i].recipe.doses.end(),
                                        [&](const Dose& e) { return e.pigment.name == d.pigment.name; });
            EXPECT_TRUE(another);
        }
    }
}

// Black in white moves the colour most where there is little of it; a coarser error would move it further.
TEST(Match, WeighingErrorsAreThoseOfTheForwardModel) {
    MatchRequest q = request_in("white-cement");
    q.pigments = named({"PBk11"});
    Recipe made = q.base;
    made.doses = {{*find_pigment("PBk11"), 0.01}};
    q.wanted.curve = seen_reflectance(made);
    const Match best = match(q, 1).at(0);
    ASSERT_EQ(best.moved_by_5_percent.size(), 1u);
    EXPECT_DOUBLE_EQ(best.moved_by_5_percent[0], best.moved_at_worst);
    MatchRequest off = q;
    double worst = 0;
    for (const double factor : {0.95, 1.05}) {
        Recipe wrong = best.recipe;
        wrong.doses[0].share *= factor;
        off.wanted.curve = seen_reflectance(wrong);
        worst = std::max(worst, ciede2000(wanted_lab(off), best.lamps[0].lab));
    }
    EXPECT_NEAR(best.moved_at_worst, worst, 1e-9);
    EXPECT_GT(best.moved_at_worst, 0.1);
    EXPECT_LT(best.moved_at_worst, 3);
}

TEST(Match, SameQuestionSameAnswer) {
    MatchRequest q = request_in("clear-epoxy");
    q.wanted.lab = {35, 5, -15};
    const auto first = match(q), second = match(q);
    ASSERT_EQ(first.size(), second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        EXPECT_EQ(first[i].grams, second[i].grams);
        EXPECT_EQ(first[i].delta_e, second[i].delta_e);
    }
}

TEST(Match, BadQuestions) {
    MatchRequest q = request_in("white-cement");
    q.light = "D66";
    EXPECT_THROW(match(q), std::invalid_argument);
    q = request_in("white-cement");
    q.batch_g = 0;
    EXPECT_THROW(match(q), std::invalid_argument);
    q = request_in("white-cement");
    q.scale_g = -1;
    EXPECT_THROW(match(q), std::invalid_argument);
    q = request_in("white-cement");
    q.most_pigments = 5;
    EXPECT_THROW(match(q), std::invalid_argument);
    q = request_in("white-cement");
    q.base.thickness_mm = 0;
    EXPECT_THROW(match(q), std::invalid_argument);
    q = request_in("white-cement");
    q.pigments.clear();
    EXPECT_EQ(match(q).size(), 1u);  // the base alone
}

}  // namespace
}  // namespace rakelight
