// Where panels hang: the layout's own below whose centre the room's origin lies, and the one beside it.
#pragma once

#include <vector>

#include "scene/room/panel_frame.h"

namespace rakelight {

struct Layout;

/// Where a panel hangs, and whose it is.
struct HungPanel : PanelFrame {
    const Layout* layout = nullptr;
};

/// The layout's own panel, then the one beside it if there is one.
std::vector<HungPanel> hung_panels(const Layout& layout);

}  // namespace rakelight
