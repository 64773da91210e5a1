// Where the printed sheet, or a drawing with corner cards, lies in a photograph.
#pragma once

#include <optional>
#include <span>

#include "output/marks/plane_fit.h"
#include "output/marks/seen_marks.h"

namespace rakelight {

/// The frame of the printed sheet, a part of it from its lower left corner, or a drawing between cards.
struct MarkedPlane {
    glm::dvec2 size_mm{};
    glm::dmat3 to_px{1};  ///< from millimetres off its upper left corner, y down
    double misfit_mm = 0;
    int marks = 0;  ///< that were seen
};

/// `paper_mm`: the size of the drawing, which cards need; without it the printed sheet's frame is meant.
/// \throws std::runtime_error with what was found and expected: no marks, too few of them, some twice, cards
/// or sheet that do not lie flat or are not of the size told.
MarkedPlane marked_plane(std::span<const SeenMark> seen, const std::optional<glm::dvec2>& paper_mm);

}  // namespace rakelight
