// A picture of flat colours as one number a pixel: which of the listed colours it has. Pixels between two
// areas that antialiasing has mixed go to the nearest of the colours beside them, by distance in CIELAB.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// A colour of the map and what it stands for.
struct MapColour {
    std::string name;
    std::array<std::uint8_t, 3> srgb{};
    Place place;  ///< in the layout
};

inline constexpr std::uint8_t kNoColour = 255;
inline constexpr std::size_t kMostMapColours = 200;

/// A larger map is refused from its header, before pixels are read. Reading takes some 16 bytes a pixel.
inline constexpr std::int64_t kMostMapPixels = 32'000'000;

/// Two listed colours must be at least this far apart in CIELAB (CIE 1976); a pixel within half of it has the
/// colour.
inline constexpr double kColourGap = 10;

/// Rows from the top; 0..n-1 are the listed colours, kNoColour is a clear pixel or one off the map.
struct LabelMap {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> labels;
    std::uint8_t at(int x, int y) const {
        return x < 0 || y < 0 || x >= width || y >= height
                   ? kNoColour
                   : labels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                            static_cast<std::size_t>(x)];
    }
};

/// CIELAB distance (CIE 1976) of two sRGB colours.
double colour_distance(const std::array<std::uint8_t, 3>& a, const std::array<std::uint8_t, 3>& b);

/// Reads the map, as wide as `width_mm` (for messages). Colours that are not listed are refused with their
/// share and where they are; when all of them together are below a two-thousandth of the map they go to the
/// nearest, with a warning. \throws LayoutError
LabelMap read_map_colours(const std::filesystem::path& path, const std::vector<MapColour>& colours,
                          double width_mm, std::vector<std::string>& warnings);

/// Gives every patch (pixels of one colour joined by their sides) of fewer than `least_pixels` to the patch
/// that it shares the longest border with, smallest first. \return how many were given away.
/// \throws std::length_error when there are more patches than any drawing has.
std::size_t merge_specks(LabelMap& map, double least_pixels);

}  // namespace rakelight
