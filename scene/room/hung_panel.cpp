#include "scene/room/hung_panel.h"

#include <cmath>

namespace rakelight {
namespace {

// The lower edge stays at the wall; a leaning panel's centre moves out by that much.
double off_wall_mm(const Layout& panel, double lean_deg) {
    return kWallGap_mm + panel.substrate.thickness_mm +
           panel.height_mm / 2 * std::sin(glm::radians(lean_deg));
}

}  // namespace

double rim_mm(const Layout& layout) {
    return layout.frame ? layout.frame->width_mm + layout.frame->gap_mm : 0;
}

glm::dvec2 outer_half_mm(const Layout& layout, double lean_deg) {
    const double rim = rim_mm(layout);
    return {layout.width_mm / 2 + rim, (layout.height_mm / 2 + rim) * std::cos(glm::radians(lean_deg))};
}

std::vector<HungPanel> hung_panels(const Layout& layout) {
    const Room& room = layout.room;
    const double up = room.panel_centre_height_mm;
    std::vector<HungPanel> hung{{&layout, {0, up, off_wall_mm(layout, room.lean_deg)}}};
    if (layout.beside && layout.beside->layout) {
        const Layout& other = *layout.beside->layout;
        const double aside = outer_half_mm(layout, 0).x + layout.beside->gap_mm + outer_half_mm(other, 0).x;
        hung.push_back(
            {&other, {layout.beside->on_left ? -aside : aside, up, off_wall_mm(other, room.lean_deg)}});
    }
    return hung;
}

}  // namespace rakelight
