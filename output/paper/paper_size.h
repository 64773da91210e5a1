// Sizes of office paper.
#pragma once

#include <glm/glm.hpp>
#include <string>

namespace rakelight {

struct PaperSize {
    std::string name = "A4";
    glm::dvec2 size_mm{210, 297};
};

}  // namespace rakelight
