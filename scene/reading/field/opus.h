// Reading of the keys that belong to one opus alone (opera.h says which), of `boulders`, and the rules
// between a field's keys and its opus.
#pragma once

#include "scene/model/field.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads what the field's opus adds. The field's opus, outline, measures and mix are read already. What the
/// trade would object to goes to `layout.warnings`.
void read_opus(Section& in, Field& field, Layout& layout, const Shelf& stock);

}  // namespace rakelight
