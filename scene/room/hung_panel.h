// Where panels hang: the layout's own below whose centre the room's origin lies, and the one beside it; and
// what of them is lit as one.
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

/// What light is aimed at: a panel, or several that hang side by side.
struct HungWork {
    glm::dvec3 centre_mm{};      ///< of the usual faces, room coordinates
    glm::dvec2 size_mm{};        ///< without frames
    glm::dvec2 outer_half_mm{};  ///< half the size that shows on the wall, frames and gaps included
};

/// Every panel by itself, the layout's own first.
std::vector<HungWork> each_hung(const Layout& layout);

/// All that hangs there as one. Of a single panel the same as `each_hung` says.
HungWork all_hung(const Layout& layout);

}  // namespace rakelight
