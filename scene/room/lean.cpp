#include "scene/room/lean.h"

#include <algorithm>
#include <cmath>

#include "scene/model/lamp_called.h"
#include "scene/model/layout.h"
#include "scene/room/panel_frame.h"

namespace rakelight {

namespace {

glm::dvec3 unit_or_ahead(const glm::dvec3& v) {
    const double length = glm::length(v);
    return length > 1e-9 ? v / length : glm::dvec3(0, 0, 1);
}

}  // namespace

glm::dvec3 toward(const Layout& layout, const Lean& lean, const glm::dvec3& panel_mm) {
    const PanelFrame frame = panel_frame(layout.panel);
    const glm::dvec3 here = frame.to_room_mm(panel_mm);
    const auto way = [&](const glm::dvec3& there) { return unit_or_ahead(frame.to_panel(there - here)); };
    if (lean.lamp.empty() && lean.viewpoint.empty()) return way(lean.at_mm);
    glm::dvec3 sum(0);
    if (const Lamp* lamp = lamp_called(layout, lean.lamp)) sum += way(lamp->at_mm);
    for (const auto& view : layout.views.viewpoints)
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
