// Direct light on panels, without tracing a ray: how much of it each panel on the wall gets.
#pragma once

#include <string>
#include <vector>

#include "scene/room/panel_frame.h"

namespace rakelight {

struct Layout;
struct Panel;

/// Mean of the direct light of all that is on in `lit` over a panel that hangs so, lux. What stands in
/// between is left out.
double direct_lux(const Layout& lit, const Panel& panel, const PanelFrame& hang);

/// For each light the layout is shown in under which a panel gets less than a tenth of the direct light of
/// the one beside it: what to say of it, with its place. A tenth: three f-stops, where a print holds the one
/// without colour beside the other; common practice, no published source.
std::vector<std::string> panels_left_dark(const Layout& layout);

}  // namespace rakelight
