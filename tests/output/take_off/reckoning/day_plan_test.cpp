#include "output/take_off/reckoning/day_plan.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

std::vector<GroutZone> zones(std::size_t count) {
    std::vector<GroutZone> out(count);
    for (std::size_t z = 0; z < count; ++z) out[z].name = "zone " + std::to_string(z);
    return out;
}

// One zone a day: N zones take N to 2 N days; colours are read at 7 and 28 days (common practice).
TEST(DayPlan, OneZoneADay) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1);  // on an epoxy bed
    const auto plan = day_plan(layout, zones(3), {2, 0, 1}, {});
    std::vector<PlanStep> fills;
    for (const PlanStep& step : plan)
        if (step.zone >= 0) fills.push_back(step);
    ASSERT_EQ(fills.size(), 3u);
    EXPECT_EQ(fills[0].zone, 2);
    EXPECT_EQ(fills[0].first_day, 1);
    EXPECT_EQ(fills[2].first_day - fills[0].first_day + 1, 3);
    EXPECT_EQ(fills[2].unhurried_day - fills[0].unhurried_day + 1, 5);  // a day between each
    EXPECT_EQ(plan.back().first_day - fills[2].first_day, 28);
    for (std::size_t i = 1; i < plan.size(); ++i) {
        EXPECT_GE(plan[i].first_day, plan[i - 1].first_day);
        EXPECT_GE(plan[i].unhurried_day, plan[i - 1].unhurried_day);
        EXPECT_LE(plan[i].first_day, plan[i].unhurried_day);
    }
}

TEST(DayPlan, PoresAreSealedBeforeTheFirstZone) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1);
    const auto plan = day_plan(layout, zones(1), {0}, {"pumice"});
    ASSERT_GE(plan.size(), 3u);
    EXPECT_NE(plan[1].how.find("pumice"), std::string::npos);
    EXPECT_LT(plan[1].unhurried_day, plan[2].unhurried_day);
}

TEST(DayPlan, WithoutGroutOnlyTheBedCures) {
    EXPECT_EQ(day_plan(sample_layout(Opus::regulatum, 10, 10, 1), {}, {}, {}).size(), 1u);
}

}  // namespace
}  // namespace rakelight
