// A test piece: a panel no larger than a sample, laid from a field of a layout and hung in the layout's own
// place and light.
#pragma once

#include "scene/model/layout.h"

namespace rakelight {

/// A layout of that field alone. Its lines are those that run through the middle of the field, and the test
/// piece is cut from there, without stones, boulders or a frame, and with stray pieces in the share of its
/// area. \throws std::invalid_argument when there is no such field.
Layout test_piece_of(const Layout& layout, const std::string& field, const glm::dvec2& size_mm);

}  // namespace rakelight
