#include "scene/room/hang.h"

#include "scene/room/lean.h"

namespace rakelight {

Hang hang_of(const Layout& layout, double lean_deg, double centre_height_mm) {
    Layout bare;  // all that hanging depends on
    bare.width_mm = layout.width_mm;
    bare.height_mm = layout.height_mm;
    bare.substrate = layout.substrate;
    bare.room.lean_deg = lean_deg;
    bare.room.panel_centre_height_mm = centre_height_mm;
    Hang hang;
    hang.origin_mm = room_of_panel_mm(bare, {0, 0, 0});
    for (int axis = 0; axis < 3; ++axis) {
        glm::dvec3 step(0);
        step[axis] = 1;
        hang.axes[axis] = room_of_panel_mm(bare, step) - hang.origin_mm;
    }
    return hang;
}

Hang hang_of(const Layout& layout) {
    return hang_of(layout, layout.room.lean_deg, layout.room.panel_centre_height_mm);
}

}  // namespace rakelight
