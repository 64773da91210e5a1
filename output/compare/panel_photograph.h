// A photograph as linear light: what a camera or a phone saved, on the sRGB primaries.
#pragma once

#include <filesystem>
#include <glm/glm.hpp>
#include <vector>

#include "output/compare/plane.h"

namespace rakelight {

struct PanelPhotograph {
    int width = 0;
    int height = 0;
    std::vector<glm::vec3> rgb;  ///< linear, 0..1; row-major, top row first
    Plane spoilt;                ///< 1 where a channel is over- or underexposed, else 0
};

/// PNG, JPEG, TIFF of 8 or 16 bits in sRGB, and whatever else OpenImageIO opens. Turned upright as its
/// orientation says. \throws RequestError naming the file and what is wrong with it.
PanelPhotograph read_panel_photograph(const std::filesystem::path& path);

}  // namespace rakelight
