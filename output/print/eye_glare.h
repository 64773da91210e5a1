// Glints are far brighter than paper or a screen can be. What a print cannot carry is spread as the reader's
// own eye would have spread it, so that a lamp mirrored in the glass sparkles where it would be a hard white
// dot. Light below the print's white is left alone: it reaches the reader's eye and is scattered there.
// Only what is known to be light is spread: a pixel that few samples made bright may be noise, and a glow
// round it would be a star that is not there. Source: total glare function of the normal eye, CIE 135/1-1999
// (Vos, van den Berg).
#pragma once

#include <span>
#include <vector>

#include "output/print/linear_picture.h"

namespace rakelight {

/// Veiling luminance per unit illuminance at the eye, per steradian, `angle_deg` from a point of light.
/// `age_years` 20..80; `pigment` 0 (very dark eyes) to 1.2 (very light).
double eye_glare_per_sr(double angle_deg, double age_years = 35, double pigment = 0.5);

/// What a point of light becomes on a pixel grid.
struct GlareKernel {
    int radius = 0;             ///< pixels
    std::vector<float> weight;  ///< (2 radius + 1)^2, row-major; sums to 1
};

/// Rows and columns that glare reaches at most.
inline constexpr int kMostGlare_px = 64;

/// Kernel for pixels seen under `pixel_deg` (> 0). It reaches 2 degrees, at most kMostGlare_px; light
/// scattered farther is left at the centre.
GlareKernel make_glare_kernel(double pixel_deg);

/// Spreads the part of each pixel's light above the print's white. Light is conserved but for what leaves the
/// picture. `known`: of each pixel the share of its luminance that it has for certain, 0..1; what is above
/// white but not known stays where it is. Empty = all is known. The result does not depend on the number of
/// threads.
void spread_glare(LinearPicture& picture, const GlareKernel& kernel, std::span<const float> known = {});

/// The share of a luminance that is known where its standard error is so large: all but two standard errors
/// (95 % of a normal distribution lie within). A pixel lit by one of its samples alone has a standard error
/// as large as itself.
float known_share(float luminance, float standard_error);

}  // namespace rakelight
