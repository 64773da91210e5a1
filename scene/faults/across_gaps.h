// How well the panels of a diptych meet across their gaps: rows and outlines as the eye carries them straight
// on over the gap, and the pieces along the two cuts. Common practice, no published source.
#pragma once

#include <string>
#include <vector>

#include "scene/geometry/polygon.h"
#include "scene/model/piece.h"
#include "scene/text/shown_units.h"

namespace rakelight {

struct Layout;

/// Lines of one kind that cross a gap. A line is the middle of a joint; it is carried straight on, as it and
/// two rows to each side run at the left panel's edge, to the right panel's edge, and its offset is measured
/// square to it, from there to the nearest line of the same kind.
struct CarriedOn {
    std::size_t lines = 0;   ///< that reach the gap less than 60 degrees off level and have one to meet
    std::size_t meet = 0;    ///< of them, offset by half a joint at most
    double worst_mm = 0;     ///< the largest offset
    glm::dvec2 worst_at{};   ///< where that line leaves the left panel, panel coordinates
    std::string worst_in{};  ///< the field, or the two fields, of that line
};

struct AcrossGap {
    std::string left, right;     ///< names of the panels
    double from_mm = 0;          ///< the left panel's edge, x
    double to_mm = 0;            ///< the right panel's edge, x
    CarriedOn rows;              ///< joints between two rows of one field
    CarriedOn outlines;          ///< joints between two fields, in their drawn direction
    std::size_t pieces = 0;      ///< that end at either edge
    std::size_t slender = 0;     ///< of them, narrower than half the narrower side of a whole piece
    double widest_joint_mm = 0;  ///< bare of pieces along either edge, at a joint's depth inside it
    glm::dvec2 widest_at{};
};

/// One a gap, from left to right; none where the panel is not divided. Deterministic.
std::vector<AcrossGap> across_gaps(const Layout& layout, const Laying& laying);

/// A line for the artist.
std::string in_words(const AcrossGap& gap, Units units);

}  // namespace rakelight
