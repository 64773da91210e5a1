// The pose of a panel in the room, for any lean and height that it might be hung at, and its size with the
// frame. A leaning panel stands with its foot at the wall, its top into the room.
#pragma once

#include <glm/glm.hpp>

#include "scene/model/panel.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

/// Panel coordinates: x along the width, y up the face, z out of it, from the lower left corner of the
/// substrate's front.
struct PanelFrame {
    glm::dvec3 centre_mm{};  ///< of the substrate's front, room coordinates
    glm::dvec3 origin_mm{};  ///< lower left corner of the substrate's front, room coordinates
    glm::dmat3 axes{1};      ///< the panel's axes in the room, unit
    glm::dvec2 half_mm{};    ///< half the panel's size, without the frame

    glm::dvec3 to_room_mm(const glm::dvec3& panel_mm) const {
        return centre_mm + axes * (panel_mm - glm::dvec3(half_mm, 0));
    }
    glm::dvec3 to_panel_mm(const glm::dvec3& room_mm) const {
        return glm::transpose(axes) * (room_mm - origin_mm);
    }
    glm::dvec3 to_panel(const glm::dvec3& direction) const { return glm::transpose(axes) * direction; }
    glm::dvec3 to_room(const glm::dvec3& direction) const { return axes * direction; }
};

/// The panel of a layout hung with its centre at this height and its top leaning into the room by so much.
PanelFrame panel_frame(const Panel& panel, double lean_deg, double centre_height_mm);
/// As the layout has it.
PanelFrame panel_frame(const Panel& panel);

/// From the wall to the substrate's front, where a panel does not lean.
double off_wall_mm(const Panel& panel);

/// The rotation of `PanelFrame::axes` as meshes are moved by it.
glm::mat4 turned_by_lean(double lean_deg);

/// Half the outer size, frame included, as it shows on the wall.
glm::dvec2 outer_half_mm(const Panel& panel, double lean_deg);

}  // namespace rakelight
