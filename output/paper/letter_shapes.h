// Letters as outlines, for drawings that must look the same where the font is missing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "output/paper/lettering.h"

namespace rakelight {

inline constexpr double kLetterEm = 1000;  ///< size of the em in outlines and advances

/// Outline and advance of one character (UTF-8), y down from the baseline, as SVG path data; empty for a
/// blank.
struct LetterShape {
    std::string path;
    double advance = 0;
};
LetterShape letter_shape(std::string_view letter, bool bold);

/// The characters of a line, in order; bytes that are not UTF-8 as question marks.
std::vector<std::string> letters_of(std::string_view text);

}  // namespace rakelight
