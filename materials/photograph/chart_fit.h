// A photograph calibrated by the chart in it: the tone curve of each channel, how the light falls off across
// the picture, and what each channel sees of each band. The three are found together: the greys give the
// tone curve once the light at their places is known, and the light is what makes the coloured patches and
// the white sheet agree.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "materials/photograph/camera_bands.h"
#include "materials/photograph/chart24.h"
#include "materials/photograph/tone_curve.h"

namespace rakelight {

/// The middle of a patch, sheet or sample in a picture.
struct Reading {
    CameraRgb value{};                             ///< mean over its pixels
    std::array<bool, 3> usable{true, true, true};  ///< false = the channel is clipped there
    glm::dvec2 at{};                               ///< in widths of the chart, from its middle, y down
    double spread = 0;                             ///< of the pixels, relative standard deviation
};

struct ChartReadings {
    std::array<Reading, kChartPatches> patches;
    std::vector<Reading> white_sheet;  ///< spots of one white sheet, round the samples
    bool linear = false;               ///< as a raw file is; else there is a tone curve to undo
};

/// Logarithm of the light at a place against that at the chart's middle: a plane and its bending.
struct LightField {
    std::array<double, 5> terms{};  ///< of x, y, x^2, xy, y^2
    std::array<std::array<double, 5>, 5> covariance{};
    double light(const glm::dvec2& at) const;  ///< relative to the chart's middle
    /// Standard deviation of what is not known of it there, relative.
    double doubt(const glm::dvec2& at) const;
};

struct ChartFit {
    std::array<ToneCurve, 3> tone;
    LightField light;
    CameraBands camera;
    std::array<double, kChartPatches> off{};  ///< each patch against the fit to the others, relative
    double misfit = 0;                        ///< root mean square of these
    std::vector<std::size_t> left_out;        ///< patches that disagree with all others, and were not used
    double uneven_left = 0;  ///< largest disagreement within the white sheet, relative; 0 without one
    double two_lights = 0;   ///< by how much the light changes colour across the chart or the sheet, relative
};

/// The chart cannot be used; says why, and names the patch.
class ChartRefused : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// \throws ChartRefused when white or three patches are clipped, greys do not grow lighter, the chart lies
/// upside down or mirrored, or the colours are not the chart's.
ChartFit fit_chart(const ChartReadings& readings);

/// What was read, with tone curve and uneven light undone.
CameraRgb undone(const ChartFit& fit, const Reading& reading);

}  // namespace rakelight
