// The light of bodies, demodulated: what the bodies of things reflect, divided by their colour, is nearly the
// irradiance that falls on them, which changes slowly where colours change at every joint. What their first
// surface mirrors is left out.
#pragma once

#include <array>

#include "output/filter/planes.h"
#include "renderer/film.h"

namespace rakelight::filter {

/// What tells two places of one light apart, in units of a tenth (normal) and of 2 mm (depth).
inline constexpr std::size_t kSights = 4;

struct BodyLight {
    int width = 0, height = 0;
    Plane first, second;               ///< luminance of the two half-films over `colour`, cd/m2
    Plane piece;                       ///< 1 where the first sample met a piece
    Plane variance;                    ///< of either, its square
    std::array<Plane, 3> xyz;          ///< of all samples, over `colour`, cd/m2
    std::array<Plane, 3> colour;       ///< XYZ of what was seen, never 0; 0 in the rim, where nothing is
    std::array<Plane, kSights> sight;  ///< normal x, y, z; depth

    BodyLight(int w, int h)
        : width(w),
          height(h),
          first(w, h),
          second(w, h),
          piece(w, h),
          variance(w, h),
          xyz{first, first, first},
          colour{first, first, first},
          sight{first, first, first, first} {}
};

/// Of a film with a guide, whose pixels have two halves each: what lamps give directly, and what other
/// surfaces do, which is most of the grain but changes slowly from place to place.
enum class Layer { direct, indirect };
BodyLight body_light(const Film& film, Layer layer);

}  // namespace rakelight::filter
