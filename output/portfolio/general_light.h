// General light: what usual rooms have beside the spots on the work. 50 to 150 lx at the walls of halls and
// living rooms are common practice, no published source.
#pragma once

#include "scene/model/lamp.h"

namespace rakelight {

struct Layout;

/// What the lamps that are on put on the panel's wall beside the work and outside their beams, lux: straight
/// from lamps without a can, and by way of the room as in an integrating sphere, E = flux * rho / (A (1 -
/// rho)), rho the mean reflectance of its surfaces and A their area. Without windows; within about a quarter.
double general_lux(const Layout& layout);

/// A matte panel on the ceiling over the middle of the room that alone gives the wall so much, reckoned in
/// the same way.
Lamp general_lamp(const Layout& layout, double lux, double temperature_k);

}  // namespace rakelight
