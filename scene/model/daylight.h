// What a layout says of the light outside, of the windows it comes through and of what else stands in the
// room: plain values. Room coordinates and walls as in layout.h.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>

namespace rakelight {

/// A day of the Gregorian calendar.
struct CalendarDay {
    int year = 2000;
    int month = 1;  ///< 1..12
    int day = 1;    ///< 1..31
};

/// CIE standard skies, sky.h.
enum class SkyKind { overcast, clear };

/// When and where: what the place of the sun follows from.
struct SunTime {
    CalendarDay day;
    double hour = 12;  ///< by the sundial, or by the clock when there is a longitude
    double latitude_deg = 0;
    std::optional<double> longitude_deg;  ///< positive east
    double zone_h = 0;                    ///< how far the clock runs before universal time
};

/// The light outside. What is not stated in lux follows from the height of the sun.
struct Daylight {
    SkyKind sky = SkyKind::overcast;
    std::optional<SunTime> time;
    double facing_deg = 180;              ///< compass bearing the panel looks to; 180 = south
    std::optional<double> sky_lux;        ///< on level ground, from the sky alone
    std::optional<double> sun_lux;        ///< across the beam; 0 = the sun is hidden
    std::optional<double> temperature_k;  ///< of the sky's light
    double ground_reflectance = 0.2;      ///< of what is seen below the horizon
};

/// The sides of the room, seen by the viewer who faces the panel; `opposite` lies behind the viewer.
enum class RoomFace { left, right, opposite, panel, ceiling };

enum class Curtain { none, sheer, blind };

/// An opening in a wall or in the ceiling.
struct Window {
    std::string name;
    std::string group;  ///< dimmed together with its lamps; defaults to the name
    RoomFace wall = RoomFace::left;
    /// In a wall: middle of the sill, along the wall (z on the side walls, x on the others) and up. In the
    /// ceiling: the middle, x and z.
    glm::dvec2 at_mm{};
    glm::dvec2 size_mm{1000, 1200};  ///< along, up (in the ceiling: x, z)
    Curtain curtain = Curtain::none;
    double transmittance = 0.8;  ///< of pane and curtain together, straight through; 1 = it stands open
    glm::ivec2 panes{0, 0};      ///< across and up, between bars; 0 = neither bars nor frame
    double bar_mm = 40;          ///< width of bars and frame
    std::string bar_material;    ///< name in `Layout::stock`
    std::optional<double> lux;   ///< upright at the pane, outside, from sky and ground; none = by daylight
    double dimming = 1;
};

/// A box that stands in the room.
struct Furniture {
    std::string name;
    glm::dvec3 at_mm{};                 ///< middle of its underside
    glm::dvec3 size_mm{500, 500, 500};  ///< along x, up, along z
    std::string material;               ///< name in `Layout::stock`
};

}  // namespace rakelight
