// The key `panel: divided`: a diptych or triptych as one drawing on several panels.
#pragma once

#include "scene/model/panel.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// A panel of a divided work is at least so wide: narrower, it has no room for its fixings. Common practice,
/// no published source.
inline constexpr double kLeastPanel_mm = 50;

/// Reads it into a panel whose size and frame are known; leaves the panel undivided where it is bad.
void read_division(Section& in, Panel& panel);

}  // namespace rakelight
