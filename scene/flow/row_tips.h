// The ends of rows that flow. Where a row is born between two others its first stretch lies close to both:
// that gives way, and not the rows beside it, which run through. A row that ends where another begins, in one
// line with it, is one row.
#pragma once

#include <functional>
#include <vector>

#include "scene/flow/row.h"

namespace rakelight {

/// Draws the open ends of rows back to where there is room for a piece between their neighbours. `across_mm`:
/// pitch across rows. Closed rows stay, and so do such as have no room anywhere.
void draw_back_tips(std::vector<Row>& rows, double across_mm);

/// Joins open rows of which one ends before the other begins, within two rows' width and in one line,
/// nearest ends first. `may_join(from, to)`: whether nothing parts them; `across_mm`: pitch across rows.
void join_in_line(std::vector<Row>& rows, double across_mm,
                  const std::function<bool(const glm::dvec2& from, const glm::dvec2& to)>& may_join);

}  // namespace rakelight
