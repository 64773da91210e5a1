#include "scene/room/panel_frame.h"

#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

namespace rakelight {

PanelFrame panel_frame(const Panel& panel, double lean_deg, double centre_height_mm) {
    const double lean = glm::radians(lean_deg), c = std::cos(lean), s = std::sin(lean);
    PanelFrame frame;
    frame.axes = {{1, 0, 0}, {0, c, s}, {0, -s, c}};
    frame.half_mm = glm::dvec2(panel.width_mm, panel.height_mm) / 2.0;
    // The lower edge stays at the wall; a leaning panel's centre moves out by that much.
    frame.centre_mm = {0, centre_height_mm, off_wall_mm(panel) + frame.half_mm.y * s};
    frame.origin_mm = frame.to_room_mm({0, 0, 0});
    return frame;
}

PanelFrame panel_frame(const Panel& panel) {
    return panel_frame(panel, panel.lean_deg, panel.centre_height_mm);
}

double off_wall_mm(const Panel& panel) {
    return kWallGap_mm + panel.substrate.thickness_mm;
}

glm::mat4 turned_by_lean(double lean_deg) {
    return glm::rotate(glm::mat4(1), static_cast<float>(glm::radians(lean_deg)), glm::vec3(1, 0, 0));
}

glm::dvec2 outer_half_mm(const Panel& panel, double lean_deg) {
    const double rim = rim_mm(panel);
    return {panel.width_mm / 2 + rim, (panel.height_mm / 2 + rim) * std::cos(glm::radians(lean_deg))};
}

}  // namespace rakelight
