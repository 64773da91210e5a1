// From a layout's wish to be moved to a traced answer: the search, the finalists traced small, the advised
// one traced as large as what it is compared with.
#pragma once

#include "output/glare/look.h"
#include "output/glare/move_report.h"
#include "output/glare/move_sheet.h"
#include "scene/model/views.h"

namespace rakelight {

struct MoveAnswer {
    MoveReport report;
    std::vector<BeforeAfter> pairs;  ///< one a viewpoint; empty when nothing is to be moved
    std::vector<std::string>
        found;  ///< lines of what was found when it was interrupted; then nothing else counts
};

/// `room`: as it is, its `metered_light`, and `looks` of it, one for each of `views`.
MoveAnswer find_moves(const GlareRoom& room, std::span<const glm::dvec3> illuminance,
                      const std::vector<Viewpoint>& views, const std::vector<GlareLook>& looks,
                      const MoveBounds& bounds, const GlareAsk& ask);

}  // namespace rakelight
