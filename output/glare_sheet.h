// The sheet of one viewpoint that a client can read: the picture with the patches numbered, its luminance in
// false colour with a scale, and the figures in words. A4, lying.
#pragma once

#include "output/glare_report.h"
#include "output/luminance_map.h"

namespace rakelight {

inline constexpr double kGlareSheet_px_per_mm = 8;
inline constexpr double kGlarePicture_mm = 130;  ///< width of either picture

/// `picture`: developed, and `map`: of the same film; both as wide as their place on the sheet.
/// \throws std::invalid_argument when they are not.
Print glare_sheet(const GlareReport& report, const Print& picture, const Print& map,
                  const LuminanceScale& scale, const std::string& program);

}  // namespace rakelight
