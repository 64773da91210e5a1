// What a file says of its red, green and blue: which lights they are, and what 1 stands for.
#pragma once

#include <array>
#include <filesystem>
#include <glm/glm.hpp>
#include <string_view>

namespace rakelight {

/// x, y of red, green, blue and white, as OpenEXR and Radiance list them.
using PrimaryPlaces = std::array<double, 8>;

/// From linear light on these primaries, white of 1, 1, 1, to that on the sRGB primaries with the same XYZ.
/// \throws std::runtime_error when they are no primaries: one line, or white out of their reach.
glm::dmat3 to_srgb_primaries(const PrimaryPlaces& places);

/// Header of a Radiance picture (Ward, "Real Pixels", Graphics Gems II, 1991; file formats in Ward Larson and
/// Shakespeare, "Rendering with Radiance", 1998): what its pixels are to be multiplied by to undo EXPOSURE
/// and COLORCORR, and PRIMARIES. Without PRIMARIES they are taken as sRGB, as cameras' pictures are.
struct RadianceHeader {
    glm::dvec3 factor{1};
    glm::dmat3 to_srgb{1};
};

/// From the start of the file. \throws std::runtime_error "found X, expected Y".
RadianceHeader read_radiance_header(std::string_view start);

}  // namespace rakelight
