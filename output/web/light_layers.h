// A film small enough for a page: the light of each lamp group, rounded to what no eye can tell and packed,
// so that a browser can dim lamps long after the render. `web/unpack.js` unpacks what is packed here.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "renderer/film.h"

namespace rakelight {

/// Steps of the logarithmic scales: luminance to 0.14 %, the colour ratios X/Y and Z/Y to 0.07 %, so that a
/// print of the light differs by less than one step of 255.
inline constexpr int kLuminanceStepsAnOctave = 256;
inline constexpr int kRatioStepsAnOctave = 512;
inline constexpr int kLuminanceZero = 256 * 24;  ///< code of 1 cd/m2; code 0 is no light at all
inline constexpr int kRatioZero = 512 * 16;      ///< code of a ratio of 1

/// One lamp group. Three planes of 16-bit codes, row-major, first row at the top: luminance in cd/m2, X/Y,
/// Z/Y. Each is replaced by its difference from the mean of its left and upper neighbours (rounded down; the
/// one there is at an edge, else 0), made positive by zigzag (0, -1, 1, -2 .. to 0, 1, 2, 3 ..), all low
/// bytes before all high bytes, and the three together deflated (RFC 1950).
struct LightLayer {
    std::string group;
    std::string packed;
};

/// A film of only the light, at most `most_side_px` wide and high: each pixel the mean of the area that it
/// covers, in linear light. A film that is small enough keeps its values. All rows must hold data.
Film shrink_light(const Film& film, int most_side_px);

/// Packs every group that gives any light. The same film gives the same bytes.
std::vector<LightLayer> pack_light(const Film& film);

/// The codes of one group and what they stand for, for whoever wants to know how far packing rounds: XYZ in
/// cd/m2 as a browser will unpack it.
std::vector<glm::vec3> rounded_light(const std::vector<glm::vec3>& light);

}  // namespace rakelight
