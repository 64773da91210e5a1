// Reading of the drawn shapes of a sectile field, and what a cutter would say of them.
#pragma once

#include "scene/model/field.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `shapes:`, a list of outlines, each alone or as `{outline: ..., material: ...}`. Reports shapes that
/// overlap or leave the field, and where; warns of hollows too tight for a saw and of tabs that would break.
void read_shapes(Section& in, Field& field, Layout& layout, const Shelf& stock);

}  // namespace rakelight
