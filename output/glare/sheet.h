// The sheet of one viewpoint that a client can read: the picture with the patches numbered, its luminance in
// false colour, how much of it is mirrored, the patches by lamp, and the figures in words. A3, upright.
#pragma once

#include "output/glare/luminance_map.h"
#include "output/glare/report.h"

namespace rakelight {

inline constexpr double kGlareSheet_px_per_mm = 8;
inline constexpr double kGlarePicture_mm = 130;  ///< width of each picture

/// All of one film and of one size, as wide as their place on the sheet.
struct GlarePictures {
    Print picture;  ///< developed
    Print map;      ///< of luminance
    Print share;    ///< of what the first face mirrors
};

/// \throws std::invalid_argument when the pictures do not fit their places.
Print glare_sheet(const GlareReport& report, const GlarePictures& pictures, const LuminanceScale& scale,
                  const std::string& program);

}  // namespace rakelight
