// What sheets of pictures have in common: a picture in its place, a ring round a spot, a scale of colours,
// words broken into lines.
#pragma once

#include <functional>
#include <string_view>

#include "output/paper/page.h"

namespace rakelight {

/// Copies a picture onto a printed sheet, its upper left corner at a place; cut off at the sheet's edges.
void place(Print& sheet, const Print& picture, const glm::dvec2& at_mm, double px_per_mm);

/// A circle as a line.
PageLine ring(const glm::dvec2& at_mm, double radius_mm, double width_mm, const EncodedSrgb& colour);

/// A number in a ring, legible on light and dark.
void add_mark(Page& page, const glm::dvec2& at_mm, int number);

/// A bar of colours from 0 to 1, `mm` wide and 3 high.
void add_scale(Page& page, const glm::dvec2& at_mm, double mm,
               const std::function<EncodedSrgb(double)>& colour_of);

/// Sets words in lines, `how` saying where the first baseline starts. \return the baseline after the last.
double add_words(Page& page, std::string_view words, const PageText& how, double mm, double line_mm);

}  // namespace rakelight
