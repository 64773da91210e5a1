#include "output/take_off/reckoning/grout_zones.h"

#include <gtest/gtest.h>

#include <tuple>

#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "scene/model/layout.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

// The rule on the backs of grout bags, worked at 5 mm depth and 1.6 kg of powder a litre (common practice):
// pieces of 20 mm with joints of 2 mm take 1.6 kg/m2, and so on.
TEST(GroutZones, RuleOfThumb) {
    for (const auto& [side, joint, kg] :
         {std::tuple{20.0, 2.0, 1.6}, {15.0, 2.0, 2.1}, {10.0, 1.5, 2.4}, {10.0, 3.0, 4.8}, {5.0, 1.0, 3.2}})
        EXPECT_NEAR(rule_of_thumb_mm3(1e6, side, side, joint, 5) / 1e6 * 1.6, kg, 0.05)
            << side << " " << joint;
}

// For narrow joints the rule and the geometry say the same: (A + B) / (A B) j is the first-order share.
TEST(GroutZones, GeometryAgreesWithTheRuleOnALevelGrid) {
    const LaidSample s = laid_sample(level_grid(20, 1, 419, 314));
    const auto zones = grout_zones(s.layout, s.laying, s.regions, s.volumes, true);
    ASSERT_EQ(zones.size(), 1u);
    EXPECT_GT(zones[0].volume_mm3, 0.85 * zones[0].rule_mm3);
    EXPECT_LT(zones[0].volume_mm3, 1.15 * zones[0].rule_mm3);
}

TEST(GroutZones, BoundaryIsMeasured) {
    const LaidSample s = laid_sample(two_grouts());
    const auto zones = grout_zones(s.layout, s.laying, s.regions, s.volumes, true);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_EQ(zones[0].name, "left");
    EXPECT_EQ(zones[0].grout, "other");
    const auto meet = zone_boundaries(s.layout, s.laying, s.ground, zones);
    ASSERT_EQ(meet.size(), 1u);
    EXPECT_EQ(meet[0].owner, 0u);
    EXPECT_EQ(meet[0].other, 1u);
    // Height and joint of the sample, as given; how near is a threshold of our own.
    EXPECT_NEAR(meet[0].length_mm, 120, 1);
    EXPECT_NEAR(meet[0].usual_mm, 2, 0.3);
    EXPECT_LT(meet[0].too_narrow, 0.05);
}

TEST(GroutZones, NarrowBoundaryIsFlagged) {
    Layout layout = two_grouts();
    for (Field& field : layout.fields) field.joint_mm = 0.7;
    const LaidSample s = laid_sample(layout);
    const auto meet = zone_boundaries(layout, s.laying, s.ground,
                                      grout_zones(layout, s.laying, s.regions, s.volumes, true));
    ASSERT_EQ(meet.size(), 1u);
    EXPECT_GT(meet[0].too_narrow, 0.9);
}

TEST(GroutZones, FieldsOfOneZoneMakeOneBatch) {
    Layout layout = two_grouts();
    layout.fields[0].grout = kGrout;
    for (Field& field : layout.fields) field.zone = "all";
    const LaidSample s = laid_sample(layout);
    const auto zones = grout_zones(layout, s.laying, s.regions, s.volumes, true);
    ASSERT_EQ(zones.size(), 1u);
    EXPECT_EQ(zones[0].fields.size(), 2u);
    EXPECT_NEAR(zones[0].area_mm2, 200 * 120, 1);
    EXPECT_TRUE(zone_boundaries(layout, s.laying, s.ground, zones).empty());
}

TEST(GroutZones, BareStoneDrinks) {
    for (const char* name : {"pumice", "scoria", "basalt", "limestone"})
        EXPECT_TRUE(open_pored(*find_stock(name))) << name;
    for (const char* name : {"river-stone", "aqua", "foam-white", "slate"})
        EXPECT_FALSE(open_pored(*find_stock(name))) << name;
}

// A perfect white has L* 100, and lighter tints are lighter (CIE 1976).
TEST(GroutZones, LightnessFollowsTheTint) {
    Material white = *find_tint("white");
    white.reflectance = SampledSpectrum(1.0f);
    EXPECT_NEAR(cured_lightness(white), 100, 0.5);
    EXPECT_GT(cured_lightness(*find_tint("white")), cured_lightness(*find_tint("mid-grey")));
    EXPECT_GT(cured_lightness(*find_tint("mid-grey")), cured_lightness(*find_tint("black")));
}

// Pieces of 22 mm in a field that says 10 mm, as drawn shapes may be: the rule goes by what is laid.
TEST(GroutZones, RuleOfThumbIsOfThePiecesLaid) {
    Layout layout = level_grid(22, 2, 240, 120);
    LaidSample s = laid_sample(layout);
    EXPECT_NEAR(s.volumes.fields[0].side_mm, 22, 0.5);
    EXPECT_NEAR(s.volumes.fields[0].narrow_mm, 22, 0.5);
    const double rule = grout_zones(s.layout, s.laying, s.regions, s.volumes, true)[0].rule_mm3;
    s.layout.fields[0].piece_length_mm = s.layout.fields[0].piece_width_mm = 10;  // said, not laid
    EXPECT_NEAR(grout_zones(s.layout, s.laying, s.regions, s.volumes, true)[0].rule_mm3, rule, 1e-9);
}

}  // namespace
}  // namespace rakelight
