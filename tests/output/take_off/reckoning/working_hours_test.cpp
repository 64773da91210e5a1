#include "output/take_off/reckoning/working_hours.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

constexpr double kSquareFoot_m2 = 0.09290304;  // NIST SP 811

// Hours a square foot (common practice, no published source): palladianum 3 to 6, tessellatum 5 to 9,
// vermiculatum 10 to 25, micro-mosaic 100 and more.
TEST(WorkingHours, UsualHoursByOpus) {
    Field field;
    double narrow_mm = 10;
    const auto hours = [&](Opus opus) {
        field.opus = opus;
        return usual_hours(field, narrow_mm);
    };
    EXPECT_NEAR(hours(Opus::palladianum).low_h_per_m2 * kSquareFoot_m2, 3, 1e-9);
    EXPECT_NEAR(hours(Opus::palladianum).high_h_per_m2 * kSquareFoot_m2, 6, 1e-9);
    EXPECT_NEAR(hours(Opus::tessellatum).low_h_per_m2 * kSquareFoot_m2, 5, 1e-9);
    EXPECT_NEAR(hours(Opus::vermiculatum).high_h_per_m2 * kSquareFoot_m2, 25, 1e-9);
    narrow_mm = 2;
    EXPECT_GE(hours(Opus::tessellatum).low_h_per_m2 * kSquareFoot_m2, 100 - 1e-9);
}

// A square foot in tessellatum by its closed form; masking 30 to 90 minutes a metre for either zone.
TEST(WorkingHours, AddUp) {
    const LaidSample s = laid_sample(two_grouts());
    const auto zones = grout_zones(s.layout, s.laying, s.regions, s.volumes, true);
    const auto meet = zone_boundaries(s.layout, s.laying, s.ground, zones);
    const WorkingHours hours = working_hours(s.layout.fields, s.volumes, zones, meet, {});
    ASSERT_EQ(hours.laying.size(), 2u);
    EXPECT_NEAR(hours.laying[0].low_h + hours.laying[1].low_h, 0.2 * 0.12 / kSquareFoot_m2 * 5, 0.01);
    EXPECT_NEAR(hours.masking.low_h, 2 * 0.5 * 0.12, 0.01);
    EXPECT_NEAR(hours.masking.high_h, 2 * 1.5 * 0.12, 0.02);
    EXPECT_NEAR(hours.all().low_h,
                hours.laying[0].low_h + hours.laying[1].low_h + hours.masking.low_h + hours.grouting.low_h,
                1e-9);
    TakeOffWishes wishes;
    wishes.hours[Opus::regulatum] = {10, 20};
    EXPECT_NEAR(working_hours(s.layout.fields, s.volumes, zones, meet, wishes).laying[0].high_h,
                20 * s.volumes.fields[0].ground_mm2 / 1e6, 1e-9);
}

}  // namespace
}  // namespace rakelight
