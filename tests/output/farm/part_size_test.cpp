// Parts held against the rule that they are made by: set-up under a fifth of each.
#include "output/farm/part_size.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

double set_up_share(const PictureCost& cost, int parts) {
    const double set_up_s = cost.set_up_s + kTaskBegins_s;
    return set_up_s / (set_up_s + cost.trace_s / parts);
}

TEST(PartSize, SetUpIsUnderAFifthAndOnePartMoreWouldBreakThat) {
    for (const double set_up_s : {0.0, 0.3, 4.0, 90.0})
        for (const double trace_s : {0.5, 20.0, 333.0, 7200.0}) {
            const PictureCost cost{set_up_s, trace_s, 1 << 20};
            const int parts = parts_for(cost);
            if (parts > 1) {
                EXPECT_LE(set_up_share(cost, parts), 0.2 + 1e-12) << set_up_s << ' ' << trace_s;
            }
            if (parts < kMostParts) {
                EXPECT_GT(set_up_share(cost, parts + 1), 0.2) << set_up_s << ' ' << trace_s;
            }
        }
}

TEST(PartSize, NoPartIsLowerThanATile) {
    EXPECT_EQ(parts_for({0.1, 1e6, 160}), 10);
    EXPECT_EQ(parts_for({0.1, 1e6, 15}), 1);
    EXPECT_EQ(parts_for({0.1, 1e9, 1 << 20}), kMostParts);
}

TEST(PartSize, TimeLimitsAreWholeMinutesWithRoom) {
    EXPECT_EQ(time_limit_min(0), 5);
    EXPECT_EQ(time_limit_min(60), 8);
    EXPECT_EQ(time_limit_min(61), 9);
}

// Amdahl (1967): what is done once sets how far splitting helps.
TEST(PartSize, TheModelEndsAtWhatIsDoneOnce) {
    const PictureCost cost{2, 1000, 1 << 20};
    const JoinCost join{10, 1e9, 1e8};
    const SplitCost one = split_cost(cost, join, 1);
    EXPECT_DOUBLE_EQ(one.elapsed_s, 2 + kTaskBegins_s + 1000);
    EXPECT_DOUBLE_EQ(one.machine_s, one.elapsed_s);
    const SplitCost many = split_cost(cost, join, 1'000'000);
    EXPECT_NEAR(many.elapsed_s, 2 + kTaskBegins_s + 10 + kTaskBegins_s + 2 * 1e9 / 1e8, 0.01);
    double before_s = one.machine_s;
    for (const int parts : {10, 100, 1000, 10000}) {
        const SplitCost split = split_cost(cost, join, parts);
        EXPECT_GT(split.machine_s, before_s);
        before_s = split.machine_s;
    }
}

}  // namespace
}  // namespace rakelight
