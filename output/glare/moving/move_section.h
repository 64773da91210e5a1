// The part of the section `glare` that says what may be moved, and how far.
#pragma once

#include "output/glare/moving/what_to_move.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

inline constexpr double kMostLean_deg = 8;  ///< that the panel may lean unless told

/// Reads `move` of the section. Reports lamps that the layout lacks, spans that run backwards, tracks that
/// leave the room or cross what stands in it, and a panel that would not fit.
void read_move(Section& glare, MoveBounds& bounds, const Layout& layout);

}  // namespace rakelight
