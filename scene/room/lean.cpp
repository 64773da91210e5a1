#include "scene/room/lean.h"

#include <algorithm>
#include <cmath>

#include "scene/model/lamp_called.h"

namespace rakelight {

namespace {

// The panel's axes in the room: it leans about its x axis by `lean_deg`, top into the room.
glm::dmat3 panel_axes(const Layout& layout) {
    const double lean = glm::radians(layout.room.lean_deg);
    return {{1, 0, 0}, {0, std::cos(lean), std::sin(lean)}, {0, -std::sin(lean), std::cos(lean)}};
}

glm::dvec3 unit_or_ahead(const glm::dvec3& v) {
    const double length = glm::length(v);
    return length > 1e-9 ? v / length : glm::dvec3(0, 0, 1);
}

}  // namespace

glm::dvec3 room_of_panel_mm(const Layout& layout, const glm::dvec3& panel_mm) {
    const double lean = glm::radians(layout.room.lean_deg);
    const glm::dvec3 origin(
        0, layout.room.panel_centre_height_mm,
        kWallGap_mm + layout.substrate.thickness_mm + layout.height_mm / 2 * std::sin(lean));
    return origin +
           panel_axes(layout) * (panel_mm - glm::dvec3(layout.width_mm / 2, layout.height_mm / 2, 0));
}

glm::dvec3 toward(const Layout& layout, const Lean& lean, const glm::dvec3& panel_mm) {
    const glm::dvec3 here = room_of_panel_mm(layout, panel_mm);
    const auto way = [&](const glm::dvec3& there) {
        return unit_or_ahead(glm::transpose(panel_axes(layout)) * (there - here));
    };
    if (lean.lamp.empty() && lean.viewpoint.empty()) return way(lean.at_mm);
    glm::dvec3 sum(0);
    if (const Lamp* lamp = lamp_called(layout, lean.lamp)) sum += way(lamp->at_mm);
    for (const auto& view : layout.viewpoints)
        if (view.name == lean.viewpoint) sum += way(view.eye_mm);
    return unit_or_ahead(sum);
}

glm::dvec2 turned_face_rad(const glm::dvec3& direction, double turn_deg) {
    const double flat = std::hypot(direction.x, direction.y);
    if (flat < 1e-9) return glm::dvec2(0);
    const double most = direction.z > 0 ? std::atan2(flat, direction.z) : glm::radians(45.0);
    const double turn = std::min({glm::radians(turn_deg), most, glm::radians(45.0)});
    // The normal (sin t * u, cos t) is that of the plane z = -tan t * dot(u, p).
    return {-std::atan(std::tan(turn) * direction.x / flat), -std::atan(std::tan(turn) * direction.y / flat)};
}

}  // namespace rakelight
