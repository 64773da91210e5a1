// Where display lamps hang and how strong they are for a wanted light on the work.
#pragma once

#include <glm/glm.hpp>
#include <string>

#include "scene/model/lamp.h"
#include "scene/model/room.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

struct Layout;

/// Standing eye height that the rule for gallery spots starts from (Canadian Conservation Institute, Notes
/// 2/3), and the usual height of a panel's centre, which lies a little below it.
inline constexpr double kStandingEye_mm = 1600;
inline constexpr double kUsualCentre_mm = 1450;

/// From the wall to a track on the ceiling, for light 30 degrees from the vertical at eye height:
/// D = (H - 1600 mm) tan 30 deg (Canadian Conservation Institute, Notes 2/3: 81 cm under a ceiling of 300
/// cm). A panel that hangs higher or lower than usual takes the eye height of the rule with it. Works taller
/// than 1200 mm: 300 mm more (the same source).
double gallery_setback_mm(double ceiling_mm, double centre_mm, double work_height_mm);

/// The middle of the faces of all that hangs there, room coordinates.
glm::dvec3 face_centre_mm(const Layout& layout);

/// A spot that gives so many lux to the middle of the work, upright on the wall, by E = I cos / d^2, its
/// beam as wide as the work's diagonal is seen from it (15 to 60 degrees).
Lamp spot_on_work(const HungWork& work, std::string name, const glm::dvec3& at_mm, double lux);

/// Candela towards the middle of the work that give it so many lux.
double candela_for_lux(const HungWork& work, const glm::dvec3& at_mm, double lux);

/// A place brought within the room: this far from side walls and the wall behind, and between floor and
/// ceiling.
glm::dvec3 within_room_mm(const Room& room, glm::dvec3 at_mm);

}  // namespace rakelight
