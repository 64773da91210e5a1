// How bright to print: from luminances in the room to one exposure value, the same for every picture it is
// used on. EV is meant at ISO 100 throughout. Middle luminance by ISO 2720:1974, L = 2^EV K / S with K = 12.5
// and S = 100.
#pragma once

#include "renderer/film.h"

namespace rakelight {

/// Share of the print's white at which the middle luminance is printed: an 18 % card looks like an 18 % card.
inline constexpr double kMiddleGrey = 0.18;

/// Luminance that exposure value `ev100` puts in the middle of the scale, cd/m2.
double middle_luminance_cd_per_m2(double ev100);

/// The exposure value whose middle luminance is `cd_per_m2` (> 0).
double ev100_of(double cd_per_m2);

/// Luminance of a matte 18 % card under `lux`, cd/m2 (Lambert).
double card_luminance_cd_per_m2(double lux);

/// Logarithmic mean of luminance over the film's rows, cd/m2: what an eye that looks the picture over adapts
/// to (Reinhard, Stark, Shirley, Ferwerda 2002, eq. 1; their key of 0.18 is the middle grey above). Pixels
/// darker than 0.005 cd/m2, where mesopic vision ends (CIE 191:2010), count as that.
double eye_luminance_cd_per_m2(const Film& film);

/// Below it a pixel counts as so bright there.
inline constexpr double kDark_cd_per_m2 = 0.005;

/// Degree of adaptation to the colour of the light, 0..1, of an eye whose adapting field has `cd_per_m2`,
/// average surround: CIECAM02 (CIE 159:2004), D = F (1 - exp(-(L + 42) / 92) / 3.6), F = 1.
double adaptation_degree(double cd_per_m2);

}  // namespace rakelight
