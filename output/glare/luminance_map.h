// Luminance in false colour: one colour a value, on a scale of powers of ten. The colours climb evenly in
// brightness as a grey printer shows it (Green 2011, "A colour scheme for the display of
// astronomical intensity images", Bull. Astr. Soc. India 39, 289: his spiral, with his usual figures).
#pragma once

#include "output/print/develop.h"
#include "renderer/film.h"

namespace rakelight {

/// Whole powers of ten between which a map shades, cd/m2.
struct LuminanceScale {
    int low = -1;  ///< 10^low and less is black
    int high = 3;  ///< 10^high and more is white
    /// Place on the scale, 0..1.
    double at(double cd_per_m2) const;
};

/// A scale five decades long that holds the film, but for the brightest thousandth of its pixels: single
/// glints, the higher the noisier they are.
LuminanceScale scale_for(const Film& film);

/// Colour of a place on the scale, 0..1.
EncodedSrgb luminance_colour(double place);

/// The film's luminance, all lamps together.
Print luminance_map(const Film& film, const LuminanceScale& scale);

}  // namespace rakelight
