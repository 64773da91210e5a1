#include "output/take_off/reckoning/hanging_load.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

constexpr double kOneLifts_kg = 23;
constexpr double kCart_kg = 50;
constexpr double kAskFrom_kg = 50;
// 15 lb/sq ft, the most that older US masonry code (TMS 402) lets adhered veneer weigh without a design.
constexpr double kAskFrom_kg_per_m2 = 73;

}  // namespace

double weight_n(double kg) {
    return kg * kGravity_m_per_s2;
}

double pull_out_n(double kg, double off_wall_mm, double lever_mm) {
    return weight_n(kg) * off_wall_mm / lever_mm;
}

double wire_tension_n(double kg, double angle_deg) {
    return weight_n(kg) / (2 * std::sin(angle_deg * std::numbers::pi / 180));
}

int people_to_lift(double kg) {
    return kg > kOneLifts_kg ? 2 : 1;
}

HangingLoad hanging_load(const Weighing& weighing, double outer_width_mm, double outer_height_mm,
                         const HangingWishes& wishes) {
    HangingLoad load;
    load.design_kg = weighing.design_kg();
    load.weight_n = weight_n(load.design_kg);
    load.off_wall_mm = weighing.off_wall_mm;
    load.lever_mm = wishes.lever_mm.value_or(outer_height_mm);
    load.pull_out_n = pull_out_n(load.design_kg, load.off_wall_mm, load.lever_mm);
    load.point_shear_n = load.weight_n / 2;
    load.point_pull_n = load.pull_out_n / 2;
    load.points_apart_mm = wishes.apart_mm.value_or(0.6 * outer_width_mm);
    load.cleat_mm = 0.8 * outer_width_mm;
    load.cleat_shear_n_per_m = load.weight_n / (load.cleat_mm / 1000);
    load.factor = wishes.factor;
    load.rated_working_kg = load.design_kg;
    load.rated_breaking_kg = load.factor * load.design_kg;
    load.wire_30_n = wire_tension_n(load.design_kg, 30);
    load.wire_15_n = wire_tension_n(load.design_kg, 15);
    load.people = people_to_lift(weighing.high_kg);
    load.cart = weighing.high_kg > kCart_kg;
    if (weighing.high_kg > kAskFrom_kg)
        load.ask.push_back(
            fmt::format("it may weigh {:.0f} kg, more than {:.0f} kg", weighing.high_kg, kAskFrom_kg));
    if (weighing.face_m2 > 0 && weighing.high_kg / weighing.face_m2 > kAskFrom_kg_per_m2)
        load.ask.push_back(fmt::format("it may weigh {:.0f} kg/m², more than {:.0f} kg/m² (15 lb/sq ft)",
                                       weighing.high_kg / weighing.face_m2, kAskFrom_kg_per_m2));
    for (const std::string& place : wishes.places) load.ask.push_back("it hangs here: " + place);
    return load;
}

}  // namespace rakelight
