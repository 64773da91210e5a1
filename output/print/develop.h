// The darkroom: from a film of physical light to a print. Exposure, white balance, eye glare, tone, sRGB.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "renderer/film.h"

namespace rakelight {

/// A finished picture: sRGB (IEC 61966-2-1), encoded, 0..1; red, green, blue of each pixel. Row-major, top
/// row first.
struct Print {
    int width = 0;
    int height = 0;
    std::vector<float> rgb;
};

struct Developing {
    double ev100 = 8;                   ///< exposure, see exposure.h
    Xyz light_white{0.9505, 1, 1.089};  ///< of the light on the panel, any Y > 0: it prints towards neutral
    double adaptation = 1;              ///< 0..1; below 1 warm lamps stay a little warm
    bool filtered = false;              ///< told in records: the film was calmed before (filter.h)
    std::optional<double> pixel_deg;    ///< angle that a pixel is seen under: spreads glints; none = no glow
};

/// XYZ in cd/m2 to linear sRGB with the print's white at 1, for an eye adapted so far to the light: one
/// matrix, the light times it is what `develop` spreads and bends.
glm::dmat3 room_to_print(const Developing& how);

/// Develops all rows. The same film gives the same bits on any number of threads.
/// Incomplete adaptation mixes adapted and unadapted light, as CIECAM02 (CIE 159:2004) does per cone channel.
Print develop(const Film& film, const Developing& how);

}  // namespace rakelight
