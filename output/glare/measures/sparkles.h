// Sparkles on a panel: small flashes that nobody misses.
#pragma once

#include "output/glare/measures/bright_patches.h"

namespace rakelight {

/// Light at the eye from which a point before a background is just seen, lux (IALA Recommendation E-200-2,
/// 2008, from memory). A flash is a sparkle when it sends this many times as much: then nobody misses it.
double just_seen_lux(double background_cd_per_m2);
inline constexpr double kSparkleTimes = 100;

/// How many: connected places where the light that a quarter of a degree mirrors, beyond what its
/// surroundings do over a degree, is a sparkle. Light at the eye is what counts, so how fine the film is does
/// not; and of it only what the film is sure of, its standard error less, so that noise does not sparkle.
/// Those in a patch wider than `widest_deg` are part of that.
int count_sparkles(const MirroredView& view, const std::vector<FoundPatch>& patches, double widest_deg);

}  // namespace rakelight
