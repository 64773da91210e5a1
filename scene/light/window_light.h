// Windows as light sees them: rectangles that show the sky and the ground outside, or glow evenly behind a
// curtain; and the sun, which shines through each bare one as a patch.
#pragma once

#include <string>
#include <vector>

#include "scene/light/emitter.h"
#include "scene/model/daylight.h"

namespace rakelight {

struct Layout;

/// Name and group of the sun as a lamp: it can be switched and dimmed apart from the sky.
inline constexpr const char* kSunName = "sun";

/// The light outside, in directions of the room.
struct LightOutside {
    SkyView sky;
    glm::dvec3 to_sun{0, 1, 0};
    double altitude_deg = 0;
    double sun_lux = 0;  ///< across its beam
};

/// Sky and sun of a daylight. Without time or lux an overcast sky gives level ground 10 000 lx.
LightOutside look_outside(const Daylight& daylight);

/// A luminous face in the plane of a wall.
struct WindowLight {
    std::string name;
    std::string group;
    Emitter emitter;  ///< its group still 0
};

/// What shines besides lamps. The faces of all windows, in the order of the layout: sky and ground as one
/// light, or as two of one name where the sun colours the ground; then the sun, if it shines through. Or,
/// where there is a picture all round, its parts (surround_emitters.h). `origin_mm`: room coordinates of the
/// world's origin.
std::vector<WindowLight> window_lights(const Layout& layout, const glm::dvec3& origin_mm);

/// Whether the sun shines into the room.
bool sun_shines_in(const Layout& layout);

/// Names and groups by which pictures can choose lights: lamps, windows, the sun and a picture all round.
std::vector<std::string> light_names(const Layout& layout);

}  // namespace rakelight
