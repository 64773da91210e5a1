// Where a panel's own coordinates lie in the room, for any lean and height that it might be hung at.
#pragma once

#include <glm/glm.hpp>

#include "scene/model/layout.h"

namespace rakelight {

/// Panel axes in the room. `axes`: x, y and out of the face, unit.
struct Hang {
    glm::dvec3 origin_mm{};  ///< lower left corner of the substrate's front, room coordinates
    glm::dmat3 axes{1};

    glm::dvec3 to_panel_mm(const glm::dvec3& room_mm) const {
        return glm::transpose(axes) * (room_mm - origin_mm);
    }
    glm::dvec3 to_panel(const glm::dvec3& direction) const { return glm::transpose(axes) * direction; }
    glm::dvec3 to_room(const glm::dvec3& direction) const { return axes * direction; }
};

/// The panel of a layout hung with its centre at this height and its top leaning into the room by so much.
Hang hang_of(const Layout& layout, double lean_deg, double centre_height_mm);
/// As the layout has it.
Hang hang_of(const Layout& layout);

}  // namespace rakelight
