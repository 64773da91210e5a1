// Words on a print: UTF-8 text of any size, through cairo and the fonts of the system.
#pragma once

#include <glm/glm.hpp>
#include <string_view>

#include "output/print/develop.h"

namespace rakelight {

enum class Align { left, centre, right };

/// How a line of text is set. Figures are all of one width, so that columns of numbers stand in line.
struct Lettering {
    double size_px = 24;  ///< of the em; capitals are about 0.73 of it
    bool bold = false;
    Align align = Align::left;
    EncodedSrgb colour;
};

/// Width of the line, pixels. Line breaks have no meaning; bytes that are not UTF-8 are set as question
/// marks.
double text_width_px(std::string_view text, const Lettering& how);

/// Writes one line. `baseline_px`: where its left end, middle or right end stands on the baseline, from the
/// top left corner, y down. What falls outside the print is cut off.
void write_text(Print& print, std::string_view text, const glm::dvec2& baseline_px, const Lettering& how);

}  // namespace rakelight
