// A sheet of paper before it is printed: boxes of colour, lines and words, in millimetres from the top left
// corner, y down. Kept apart from the pixels so that what a sheet says can be read back, and so that it
// prints at any fineness.
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "output/paper/type.h"

namespace rakelight {

/// A plain area of one colour.
struct PageBox {
    glm::dvec2 at_mm{};
    glm::dvec2 size_mm{};
    EncodedSrgb colour;
};

/// A line through points, with round joins.
struct PageLine {
    std::vector<glm::dvec2> points_mm;
    double width_mm = 0.2;
    EncodedSrgb colour;
};

/// Boxes lie below lines, lines below words; within a kind the later above.
struct Page {
    glm::dvec2 size_mm{210, 297};  ///< A4
    EncodedSrgb paper{1, 1, 1};
    std::vector<PageBox> boxes;
    std::vector<PageLine> lines;
    std::vector<PageText> texts;
};

/// A box in whole pixels, as `print_page` fills it.
struct PixelBox {
    glm::ivec2 at_px{};
    glm::ivec2 size_px{};
};
PixelBox pixels_of(const PageBox& box, double px_per_mm);

/// The page in pixels. Boxes have sharp edges at whole pixels and exactly their colour.
Print print_page(const Page& page, double px_per_mm);

/// What is on the page, without its paper, over a print; what falls outside is cut off.
void print_over(Print& print, const Page& page, double px_per_mm);

}  // namespace rakelight
