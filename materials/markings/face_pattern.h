// The face of a patterned sheet as a height with its slope: rolled lines, hammered hollows, ripples, the grit
// of granite glass. The slope is the height's own, so that what mirrors in it bends as in the sheet. Shapes
// are common practice, no published source.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>

#include "materials/markings/markings.h"

namespace rakelight {

/// A height and its slope, in units in which a rise is two wide; x along the sheet.
struct PatternSample {
    float height = 0;
    glm::vec2 slope{0};
};

/// Of a pattern at a place; `seed`: which sheet.
PatternSample pattern_at(Pattern pattern, const glm::vec2& at, std::uint32_t seed);

/// Standard deviation of a pattern's slope, of both axes together over the square root of two.
float pattern_slope(Pattern pattern);

}  // namespace rakelight
