// Where panels hang: the layout's own below whose centre the room's origin lies, and the one beside it.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "scene/model/layout.h"

namespace rakelight {

struct HungPanel {
    const Layout* layout = nullptr;  ///< whose panel it is
    glm::dvec3 centre_mm{};          ///< of the substrate's front, room coordinates
};

/// The layout's own panel, then the one beside it if there is one.
std::vector<HungPanel> hung_panels(const Layout& layout);

/// Width of frame and shadow gap round a panel.
double rim_mm(const Layout& layout);

/// Half the outer size, frame included, as it shows on the wall.
glm::dvec2 outer_half_mm(const Layout& layout, double lean_deg);

}  // namespace rakelight
