// The section `clips` of a layout file.
#pragma once

#include "output/clip/clip.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads the section that belongs to `layout`, or takes what is usual. \throws LayoutError with all its
/// problems.
Clips read_clips(const Layout& layout);

/// From an open section, problems recorded there.
Clips read_clips(Section& in, const Layout& layout);

}  // namespace rakelight
