// The sheet of a comparison: photograph, picture and map of what differs, and the figures.
#pragma once

#include <string>

#include "output/compare/compared.h"
#include "output/print/develop.h"

namespace rakelight {

inline constexpr double kCompareSheet_px_per_mm = 8;

/// Colour of a CIEDE2000: one hue, white at 0 to violet at 10 and over.
EncodedSrgb difference_colour(double delta_e);

/// Both as they print, in the picture's perspective: to be laid over one another.
Print compared_picture(const Compared& compared);
Print compared_photograph(const Compared& compared);
/// CIEDE2000 by pixel; what is left out is grey.
Print difference_map(const Compared& compared);

/// `title`: of the sheet; `program`: name and version, in its last line.
Print compare_sheet(const Compared& compared, const std::string& title, const std::string& program);

}  // namespace rakelight
