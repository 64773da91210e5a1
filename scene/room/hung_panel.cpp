#include "scene/room/hung_panel.h"

#include <algorithm>

#include "scene/model/layout.h"
#include "scene/model/levels.h"

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

std::vector<HungWork> each_hung(const Layout& layout) {
    std::vector<HungWork> works;
    for (const HungPanel& hung : hung_panels(layout)) {
        const Panel& panel = hung.layout->panel;
        works.push_back({hung.centre_mm + glm::dvec3(0, 0, face_plane_mm(*hung.layout)),
                         {panel.width_mm, panel.height_mm},
                         outer_half_mm(panel, layout.panel.lean_deg)});
    }
    return works;
}

HungWork all_hung(const Layout& layout) {
    const std::vector<HungWork> works = each_hung(layout);
    HungWork all = works.front();
    if (works.size() == 1) return all;
    double low = 1e9, high = -1e9, outer_low = 1e9, outer_high = -1e9;
    for (const HungWork& work : works) {
        low = std::min(low, work.centre_mm.x - work.size_mm.x / 2);
        high = std::max(high, work.centre_mm.x + work.size_mm.x / 2);
        outer_low = std::min(outer_low, work.centre_mm.x - work.outer_half_mm.x);
        outer_high = std::max(outer_high, work.centre_mm.x + work.outer_half_mm.x);
        all.size_mm.y = std::max(all.size_mm.y, work.size_mm.y);
        all.outer_half_mm.y = std::max(all.outer_half_mm.y, work.outer_half_mm.y);
    }
    all.centre_mm.x = (outer_low + outer_high) / 2;
    all.size_mm.x = high - low;
    all.outer_half_mm.x = (outer_high - outer_low) / 2;
    return all;
}

}  // namespace rakelight
