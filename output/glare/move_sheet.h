// The page that says what to move: the advice in words, the room in lines, the arrangements that were traced
// in a table, and what each viewer sees before and after. As wide as A3; as tall as it needs to be.
#pragma once

#include "output/glare/move_report.h"
#include "output/print/develop.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

inline constexpr double kMoveSheet_px_per_mm = 8;
inline constexpr double kMovePicture_mm = 130;  ///< width of each picture

/// What one viewer sees before and after, exposed alike.
struct BeforeAfter {
    Print before;
    Print after;
};

/// `pairs`: one a viewpoint of the report; empty when nothing is to be moved. `eyes`: those viewpoints.
/// \throws std::invalid_argument when a picture does not fit its place.
Print move_sheet(const MoveReport& report, const Layout& present, const std::vector<Viewpoint>& eyes,
                 const std::vector<BeforeAfter>& pairs, const std::string& program);

}  // namespace rakelight
