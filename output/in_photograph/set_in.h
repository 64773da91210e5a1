// A rendering set into a photograph by differences (Debevec 1998, "Rendering Synthetic Objects into Real
// Scenes", SIGGRAPH, section 4): where the panel covers, it is seen; elsewhere the photograph changes as the
// rendered wall does when the panel is hung. As what reflects there is the photographed wall and not the
// rendered one, the difference is scaled by how bright the one is beside the other: photograph * with /
// without.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "output/in_photograph/camera_look.h"

namespace rakelight {

/// A part of a picture, row-major; light is linear, in the unit of the photograph.
struct SetIn {
    int width = 0, height = 0;
    std::vector<glm::vec3> photograph;
    std::vector<glm::vec3> with, without;  ///< renderings with the panel and without
    std::vector<float> covered;            ///< share of each pixel that the panel covers
    std::vector<float> reach;              ///< 0..1: how much of a change of the wall is heeded
    std::vector<float> in_front;           ///< as of TakenPhotograph; empty = nothing
};

struct Composed {
    std::vector<glm::vec3> rgb;  ///< linear
    std::vector<float> panel;    ///< share of the panel that is left of each pixel, for its grain
};

/// `more_blur_px`: standard deviation of a Gaussian that the rendering lacks to be as soft as the photograph.
Composed set_in(const SetIn& parts, double more_blur_px);

}  // namespace rakelight
