// What a hung panel asks of its fixings, by statics alone, and when the question is one for an engineer.
// Nothing here says that a wall or a fixing will hold: it says what would have to be held.
#pragma once

#include <string>
#include <vector>

#include "output/take_off/reckoning/weighing.h"

namespace rakelight {

/// Standard acceleration of free fall, ISO 80000-3.
inline constexpr double kGravity_m_per_s2 = 9.80665;

/// Weight of a mass.
double weight_n(double kg);

/// Pull on the upper fixing, straight out of the wall: weight times the distance of its centre of gravity
/// from the wall, over the height from there down to where the lower edge bears.
double pull_out_n(double kg, double off_wall_mm, double lever_mm);

/// Tension in each leg of a picture wire that hangs at `angle_deg` below level: W / (2 sin a).
double wire_tension_n(double kg, double angle_deg);

/// People to lift: 23 kg is the load constant of the revised NIOSH lifting equation (Waters et al. 1993,
/// Ergonomics 36(7), 749); two above it; a cart above 50 kg.
int people_to_lift(double kg);

struct HangingLoad {
    double design_kg = 0;  ///< high x 1.1: loads below are of this
    double weight_n = 0;
    double off_wall_mm = 0;
    double lever_mm = 0;
    double pull_out_n = 0;     ///< in all, at the top
    double point_shear_n = 0;  ///< of each of two points when both bear
    double point_pull_n = 0;
    double points_apart_mm = 0;
    double cleat_mm = 0;  ///< least length of a cleat: four fifths of the width
    double cleat_shear_n_per_m = 0;
    double rated_working_kg = 0;   ///< that each point has to be rated for, as a working load: all of it
    double rated_breaking_kg = 0;  ///< the same when only a breaking load is known
    double factor = 4;
    double wire_30_n = 0, wire_15_n = 0;  ///< tension of each leg, to show why not
    int people = 1;
    bool cart = false;
    std::vector<std::string> ask;  ///< why this is for an engineer, the local code or the building's owner
};

/// `outer_height_mm`: over the frame.
HangingLoad hanging_load(const Weighing& weighing, double outer_width_mm, double outer_height_mm,
                         const HangingWishes& wishes);

}  // namespace rakelight
