#include "output/take_off/reckoning/hanging_load.h"

#include <gtest/gtest.h>

#include "scene/text/units.h"

namespace rakelight {
namespace {

// 65 lb is 29.5 kg (NIST SP 811); it weighs 289 N; its weight 60 mm off the wall pulls with 29 N at the top
// of 600 mm: moments about the lower edge.
TEST(HangingLoad, WorkedExample) {
    const double kg = read_measure("65 lb", Quantity::mass_g).value / 1000;
    EXPECT_NEAR(kg, 29.5, 0.05);
    EXPECT_NEAR(weight_n(kg), 289, 0.5);
    EXPECT_NEAR(pull_out_n(kg, 60, 600), 29, 0.5);
}

// W / (2 sin a): as much as the weight at 30 degrees, 1.9 times at 15.
TEST(HangingLoad, WireTension) {
    EXPECT_NEAR(wire_tension_n(10, 30) / weight_n(10), 1.0, 1e-9);
    EXPECT_NEAR(wire_tension_n(10, 15) / weight_n(10), 1.93, 0.005);
    EXPECT_NEAR(wire_tension_n(10, 90) / weight_n(10), 0.5, 1e-9);
}

// A kiln at 1550 F is at 843 C (NIST SP 811: t/C = (t/F - 32) / 1.8).
TEST(HangingLoad, KilnFigureOfTheCautions) {
    EXPECT_NEAR(read_measure("1550 F", Quantity::temperature_c).value, 843, 0.5);
}

Weighing weighing(double kg, double m2) {
    Weighing w;
    w.likely_kg = kg;
    w.low_kg = 0.85 * kg;
    w.high_kg = 1.15 * kg;
    w.face_m2 = m2;
    w.off_wall_mm = 40;
    return w;
}

TEST(HangingLoad, DesignsOnTheHighFigureAndATenth) {
    HangingWishes wishes;
    const HangingLoad load = hanging_load(weighing(20, 0.6), 900, 700, wishes);
    EXPECT_NEAR(load.design_kg, 20 * 1.15 * 1.1, 1e-9);
    // Equilibrium: both points together carry the weight, and the moments about the lower edge vanish.
    EXPECT_NEAR(2 * load.point_shear_n, load.weight_n, 1e-9);
    EXPECT_NEAR(load.pull_out_n * load.lever_mm, load.weight_n * load.off_wall_mm, 1e-6);
    // Each point for all of it, times four where only a breaking load is known.
    EXPECT_NEAR(load.rated_working_kg, load.design_kg, 1e-9);
    EXPECT_NEAR(load.rated_breaking_kg, 4 * load.design_kg, 1e-9);
    EXPECT_NEAR(load.cleat_mm, 0.8 * 900, 1e-9);
    EXPECT_NEAR(load.cleat_shear_n_per_m * load.cleat_mm / 1000, load.weight_n, 1e-6);
    EXPECT_TRUE(load.ask.empty());
}

TEST(HangingLoad, PeopleAndWhenToAsk) {
    EXPECT_EQ(people_to_lift(23), 1);
    EXPECT_EQ(people_to_lift(23.1), 2);
    EXPECT_TRUE(hanging_load(weighing(50, 1.5), 1500, 1000, {}).cart);
    EXPECT_EQ(hanging_load(weighing(44, 1.5), 1500, 1000, {}).ask.size(), 1u);  // high figure over 50 kg
    EXPECT_EQ(hanging_load(weighing(20, 0.3), 600, 500, {}).ask.size(), 1u);    // over 73 kg/m2
    HangingWishes wishes;
    wishes.places = {"over a sleeping place", "stairs"};
    EXPECT_EQ(hanging_load(weighing(10, 0.5), 700, 700, wishes).ask.size(), 2u);
}

}  // namespace
}  // namespace rakelight
