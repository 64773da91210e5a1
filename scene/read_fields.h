// Reading of the fields: what is laid where, in which way, from which mix.
#pragma once

#include "scene/layout.h"
#include "scene/read_stock.h"
#include "scene/yaml_reader.h"

namespace rakelight {

/// More pieces than this are refused: a slip of a unit, not a panel.
inline constexpr double kMostPieces = 2e6;

/// Shares of a mix may miss 100 % by this much; they are then scaled to sum to it.
inline constexpr double kShareTolerance = 0.001;

/// Reads `fields:`, of which there must be at least one. Needs the panel.
void read_fields(Section& file, Layout& layout, const Shelf& stock, const Shelf& tints);

}  // namespace rakelight
