// The room in lines, from the side and from above: the panel, lamps where they are and where they should go,
// windows and eyes. So that whoever moves a lamp sees which one, and which way.
#pragma once

#include <vector>

#include "output/glare/moving/what_to_move.h"
#include "output/paper/page.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

enum class SketchView { side, above };

/// Draws into a page within `at_mm` and `size_mm`. Things that an arrangement moves are drawn twice, as they
/// are and as they should be, with an arrow between.
void add_room_sketch(Page& page, SketchView view, const Layout& present, const Arrangement& then,
                     const std::vector<Viewpoint>& eyes, const glm::dvec2& at_mm, const glm::dvec2& size_mm);

}  // namespace rakelight
