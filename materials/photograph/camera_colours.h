// From what a camera sees to colour: the root polynomial of second degree that makes the chart's patches what
// they are (Finlayson, Mackiewicz and Hurlbert 2015, IEEE Trans. Image Process. 24, 1460). Twice the light is
// twice the colour, so that it holds at every exposure.
#pragma once

#include "materials/colour/colorimetry.h"
#include "materials/photograph/chart_fit.h"

namespace rakelight {

/// X, Y, Z by red, green, blue and the roots of their products: rg, gb, br.
struct CameraColours {
    std::array<std::array<double, 6>, 3> xyz{};
    /// Of channels with the tone curve undone; Y of a perfect white in the light of the chart's middle is 1.
    Xyz colour(const CameraRgb& linear) const;
};

/// By the patches that `fit` uses. `light`: relative power of what lit the photograph; it gives the colours
/// that the chart has in it.
CameraColours fit_colours(const ChartReadings& readings, const ChartFit& fit, const Spectrum& light);

}  // namespace rakelight
