// Which layouts share their geometry: pieces, joints and room alike, only colours and light another. Decided
// on the tree of the file, with what can only change colour left out, so that a key nobody thought of here
// counts as geometry.
#pragma once

#include <string>

#include "scene/text/yaml_document.h"

namespace rakelight {

struct Layout;

/// Equal for layouts whose worlds have the same meshes in the same order. `layout` is what `tree` says.
std::string geometry_key(const YamlValue& tree, const Layout& layout);

/// Equal for layouts, of one geometry, that shine the same lamps and windows in the same room.
std::string light_key(const YamlValue& tree);

/// All that a tree says, but for what deliverables ask: equal for equal layouts.
std::string tree_text(const YamlValue& tree);

}  // namespace rakelight
