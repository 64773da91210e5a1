#include "scene/room/hung_panel.h"

#include "scene/model/layout.h"

namespace rakelight {

std::vector<HungPanel> hung_panels(const Layout& layout) {
    std::vector<HungPanel> hung{{panel_frame(layout.panel), &layout}};
    if (layout.beside && layout.beside->layout) {
        const Layout& other = *layout.beside->layout;
        const double aside =
            outer_half_mm(layout.panel, 0).x + layout.beside->gap_mm + outer_half_mm(other.panel, 0).x;
        PanelFrame frame = panel_frame(other.panel, layout.panel.lean_deg, layout.panel.centre_height_mm);
        frame.centre_mm.x = layout.beside->on_left ? -aside : aside;
        frame.origin_mm = frame.to_room_mm({0, 0, 0});
        hung.push_back({frame, &other});
    }
    return hung;
}

}  // namespace rakelight
