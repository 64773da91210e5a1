// The ends of rows that flow. Where a row is born between two others its first stretch lies close to both:
// that gives way, and not the rows beside it, which run through.
#pragma once

#include <vector>

#include "scene/flow/row.h"

namespace rakelight {

/// Draws the open ends of rows back to where there is room for a piece between their neighbours. `across_mm`:
/// pitch across rows. Closed rows stay, and so do such as have no room anywhere.
void draw_back_tips(std::vector<Row>& rows, double across_mm);

}  // namespace rakelight
