// A picture of light all round as light sees it: an emitter for each of its patches.
#pragma once

#include <string>
#include <vector>

#include "scene/light/emitter.h"
#include "scene/light/window_light.h"

namespace rakelight {

struct Layout;

/// Luminance, cd/m2, that red, green and blue of 1 stand for in the layout's picture all round, undimmed.
double surround_unit_cd_per_m2(const Layout& layout);

/// Light of it on the panel, nothing in between, lux.
double surround_lux(const Layout& layout);

/// The direction of a bright spot in words, as somebody faces the panel: "40 degrees left, 35 up", from
/// straight out of the wall and from level; "straight out, level" within half a degree. `direction`: of the
/// room, unit.
std::string direction_in_words(const glm::dvec3& direction);

/// Emitters of the picture all round that is on, its bright spots first, all of its name; the group is its
/// own, or, where spots are apart, of each spot the name with its direction. None without such a picture.
std::vector<WindowLight> surround_lights(const Layout& layout);

/// Relative spectral power of the mean of a part of a picture.
Spectrum surround_spectrum(const SurroundPart& part);

}  // namespace rakelight
