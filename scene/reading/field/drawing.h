// Reading of `drawing:`, which names a drawing or a map of flat colours beside the layout.
#pragma once

#include "scene/reading/field/drawn_sheet.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads the drawing that the layout names, if it names one. Needs the panel; looks ahead into `fields` for
/// the names they ask for. What is wrong with the drawing goes among the problems of the layout, what was
/// left out among its warnings.
DrawnSheet read_drawing(Section& file, Layout& layout);

}  // namespace rakelight
