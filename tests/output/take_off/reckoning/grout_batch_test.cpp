#include "output/take_off/reckoning/grout_batch.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

Recipe recipe(const char* base, std::vector<std::pair<const char*, double>> doses) {
    Recipe r;
    r.base = *find_base(base);
    for (const auto& [name, share] : doses) r.doses.push_back({*find_pigment(name), share});
    return r;
}

// By hand: 200 cm3 x 1.65 g = 330 g; with 20 % 396 g, so 400 g; a quarter of it water; 40 % of 650 g is
// cement, 4 % of that is 10.4 g.
TEST(GroutBatch, PowderWaterPigmentAndSpare) {
    const Batch b = make_batch(200'000, recipe("white-cement", {{"PB28", 0.04}}), {0.20, 250, 0.25, 2000});
    EXPECT_NEAR(b.net_g, 330, 1e-9);
    EXPECT_NEAR(b.mix_g, 400, 1e-9);
    EXPECT_NEAR(b.total_g, 650, 1e-9);
    EXPECT_NEAR(b.water_g, 100, 1e-9);
    EXPECT_NEAR(b.cement_g, 0.4 * 650, 1e-9);
    ASSERT_EQ(b.pigments.size(), 1u);
    EXPECT_NEAR(b.pigments[0].grams, 10.4, 1e-9);
    EXPECT_EQ(b.pots, 1);
}

TEST(GroutBatch, RoundsUpToFiftyAndToALeast) {
    const Recipe plain = recipe("grey-cement", {});
    EXPECT_NEAR(make_batch(1000, plain, {}).mix_g, kLeastBatch_g, 1e-9);
    for (double mm3 = 1e5; mm3 < 1e6; mm3 += 37'777) {
        const Batch b = make_batch(mm3, plain, {0.2, 0, 0.25, 500});
        EXPECT_NEAR(std::remainder(b.mix_g, 50), 0, 1e-9);
        EXPECT_GE(b.mix_g, 1.2 * b.net_g - 1e-6);
        EXPECT_LT(b.mix_g, 1.2 * b.net_g + 50 + 1e-6);
        EXPECT_EQ(b.pots, static_cast<int>(std::ceil(b.mix_g / 500 - 1e-9)));
    }
}

TEST(GroutBatch, EpoxyTakesNoWaterAndSmallPots) {
    const Batch b = make_batch(400'000, recipe("clear-epoxy", {{"PW6", 0.02}}), {0.12, 250, 0.25, 2000});
    EXPECT_NEAR(b.net_g, 448, 1e-9);  // 1.12 g/cm3
    EXPECT_EQ(b.water_g, 0);
    EXPECT_EQ(b.spare_g, 0);
    EXPECT_EQ(b.pots, 3);  // of at most 250 g
    EXPECT_NEAR(b.pigments[0].grams, 0.02 * b.total_g, 0.05);
}

TEST(GroutBatch, NoJointNoBatch) {
    EXPECT_EQ(make_batch(0, recipe("white-cement", {}), {}).total_g, 0);
}

// A tenth, rounded up to 5 g, within bounds (common practice, no published source).
TEST(GroutBatch, SpareFollowsTheNeed) {
    EXPECT_EQ(usual_spare_g(60), 25);
    EXPECT_EQ(usual_spare_g(601), 65);
    EXPECT_EQ(usual_spare_g(4000), 250);
}

}  // namespace
}  // namespace rakelight
