// A picture that a mix follows: read once, in linear light, and asked for the mean colour under a piece.
#pragma once

#include <filesystem>
#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "scene/geometry/region.h"

namespace rakelight {

/// Larger pictures are refused before a pixel is read.
inline constexpr long long kMostReferencePixels = 100'000'000;

/// Longer sides are averaged down to at most this: far more than one pixel a piece.
inline constexpr int kLongestSide_px = 2048;

struct ReferencePicture {
    int width_px = 0;
    int height_px = 0;
    glm::dvec2 extent_px{
        1};          ///< of the file, in pixels of this size: the last row or column may be cut short
    int shrink = 1;  ///< pixels of the file along the side of one of these
    std::vector<glm::vec4> pixels;  ///< row by row from the top: linear sRGB times alpha, then alpha, 0..1

    double height_per_width() const { return extent_px.y / extent_px.x; }
};

/// Reads PNG, JPEG or TIFF of whole numbers in sRGB (IEC 61966-2-1), grey or colour, with or without alpha
/// (taken as not yet multiplied into the colour, as PNG has it), turned upright as its Exif orientation says.
/// \throws std::runtime_error saying what was found and what was expected.
ReferencePicture read_reference_picture(const std::filesystem::path& path);

struct MeanColour {
    LinearRgb colour;  ///< over the part covered; black when nothing is
    double cover = 0;  ///< share of the area that the picture covers, alpha counted, 0..1
};

/// A rectangle of the picture as the file has it, turned upright: pixels from its upper left corner, y down.
struct PixelRectangle {
    glm::dvec2 corner_px{0};  ///< upper left
    glm::dvec2 size_px{0};
};

/// The mean within a rectangle that lies within the picture.
MeanColour mean_within(const ReferencePicture& picture, const PixelRectangle& rectangle);

/// The mean within an outline, each pixel by the exact area of it that lies inside (signed areas swept edge
/// by edge, as outlines of letters are filled). `at_mm`: the picture's lower left corner, `width_mm` its
/// width > 0. The outline does not cross itself and runs counter-clockwise.
MeanColour mean_under(const ReferencePicture& picture, const glm::dvec2& at_mm, double width_mm,
                      const Ring& outline_mm);

}  // namespace rakelight
