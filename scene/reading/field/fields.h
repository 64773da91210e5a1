// Reading of the fields: what is laid where, in which way, from which mix.
#pragma once

#include "scene/reading/field/drawn_sheet.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// More pieces than this are refused: a slip of a unit, not a panel.
inline constexpr double kMostPieces = 2e6;

/// Reads `fields:`, of which there must be at least one. Needs the panel.
/// `sheet`: the drawing that fields may take their outlines and guides from.
void read_fields(Section& file, Layout& layout, const Shelf& stock, const Shelf& tints, DrawnSheet& sheet);

}  // namespace rakelight
