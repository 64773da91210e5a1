// Eyes: where a row turns back on itself or closes on a ring so tight that its pieces would be needles, one
// round piece is laid in the middle and the rows round it end at it. Where the row's legs draw apart beyond
// the turn, as at the end of a leaf, that piece is a drop with its point in the turn. Common practice, no
// published source.
#pragma once

#include <span>
#include <vector>

#include "scene/flow/row.h"
#include "scene/geometry/region.h"

namespace rakelight {

/// A round piece in the middle of a tight turn.
struct Eye {
    glm::dvec2 middle_mm{0};
    double radius_mm = 0;    ///< up to the middle of the joint round it
    glm::dvec2 along{1, 0};  ///< across the rows that end at it
    bool drop = false;       ///< it takes the ground nearest to it, shared out as that of rows is
};

/// The eyes that `rows` ask for, in the order of the rows: none that leaves `ground` or comes nearer to its
/// edge than half a row, and none within another. `across_mm`: pitch across rows.
std::vector<Eye> eyes_of(const std::vector<Row>& rows, const Region& ground, double across_mm);

/// Whether a place lies in one of them, or no farther than `beside_mm` from it.
bool within(std::span<const Eye> eyes, const glm::dvec2& p, double beside_mm);

/// The seed of a drop. `across_mm`: pitch across rows.
Seed seed_of(const Eye& drop, double across_mm);

/// The piece cut from the cell of a drop: drawn in by `drawn_in_mm`, its corners rounded; may be empty.
Ring drop_from(const Ring& cell, double drawn_in_mm, double across_mm);

/// Its outline, counter-clockwise, drawn in by `drawn_in_mm`.
Ring outline_of(const Eye& eye, double drawn_in_mm);

}  // namespace rakelight
