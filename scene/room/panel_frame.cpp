#include "scene/room/panel_frame.h"

#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

namespace rakelight {

PanelFrame panel_frame(const Layout& layout, double lean_deg, double centre_height_mm) {
    const double lean = glm::radians(lean_deg), c = std::cos(lean), s = std::sin(lean);
    PanelFrame frame;
    frame.axes = {{1, 0, 0}, {0, c, s}, {0, -s, c}};
    frame.half_mm = glm::dvec2(layout.panel.width_mm, layout.panel.height_mm) / 2.0;
    // The lower edge stays at the wall; a leaning panel's centre moves out by that much.
    frame.centre_mm = {0, centre_height_mm, off_wall_mm(layout) + frame.half_mm.y * s};
    frame.origin_mm = frame.to_room_mm({0, 0, 0});
    return frame;
}

PanelFrame panel_frame(const Layout& layout) {
    return panel_frame(layout, layout.panel.lean_deg, layout.panel.centre_height_mm);
}

double off_wall_mm(const Layout& layout) {
    return kWallGap_mm + layout.panel.substrate.thickness_mm;
}

glm::mat4 turned_by_lean(double lean_deg) {
    return glm::rotate(glm::mat4(1), static_cast<float>(glm::radians(lean_deg)), glm::vec3(1, 0, 0));
}

double rim_mm(const Layout& layout) {
    return layout.panel.frame ? layout.panel.frame->width_mm + layout.panel.frame->gap_mm : 0;
}

glm::dvec2 outer_half_mm(const Layout& layout, double lean_deg) {
    const double rim = rim_mm(layout);
    return {layout.panel.width_mm / 2 + rim,
            (layout.panel.height_mm / 2 + rim) * std::cos(glm::radians(lean_deg))};
}

}  // namespace rakelight
