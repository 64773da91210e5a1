// What a layout means where it leaves out whole things (lamps, viewpoints, pictures, materials by name), so
// that a file of a panel and one field is enough. Usual values of single keys stand where they are read
// (read_*.cpp) and at the members of Layout.
// Display figures: centre at 1450 mm; lamps 30 degrees from the vertical above eye height 1600 mm, set
// further back for tall work; 300 lx on the work; a first look from 1.75 panel diagonals. Common practice, no
// published source.
#pragma once

#include <glm/glm.hpp>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"
#include "scene/model/lamp.h"
#include "scene/model/panel.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

inline constexpr std::string_view kUsualSubstrate = "cement-board";
inline constexpr std::string_view kUsualFrame = "oak";
inline constexpr std::string_view kUsualWall = "gallery-white";
inline constexpr std::string_view kUsualFloor = "floorboards";
inline constexpr std::string_view kUsualCeiling = "gallery-white";
inline constexpr std::string_view kUsualBars = "gallery-white";
inline constexpr std::string_view kUsualFurniture = "oak";
inline constexpr std::string_view kUsualJoinery = "gallery-white";
inline constexpr std::string_view kUsualHandle = "deep-grey";
inline constexpr std::string_view kUsualBed = "epoxy-charcoal";
inline constexpr std::string_view kUsualGrout = "mid-grey";

/// Finish, face and density that a new material of this kind starts from; no colour yet. `opaque` is true.
Material usual_material(Kind kind);

/// Two spots left and right above, aimed at the panel's centre, group "spots". Needs panel and room.
std::vector<Lamp> usual_lamps(const Layout& layout);

/// Centre of the panel in room coordinates, on the wall.
glm::dvec3 panel_centre_mm(const Panel& panel);

/// Square on to the panel's centre. Its view width is left 0, for `fit_views`. Needs panel and room.
Viewpoint usual_viewpoint(const Layout& layout);

/// The first viewpoint, all lamps, the panel's own shape with a long side of 1200 px. Needs panel and
/// viewpoints.
Picture usual_picture(const Layout& layout);

/// Gives each viewpoint without a view width that of its lens, or else the one that shows panel, frame and a
/// margin of 12 % in every picture taken from it. Needs everything else.
void fit_views(Layout& layout);

}  // namespace rakelight
