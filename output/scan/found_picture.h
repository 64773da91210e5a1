// The picture of what was found in a drawing on paper: the photograph made flat, with regions, the points by
// which they can be named, guides, gaps closed, and regions that no field takes.
#pragma once

#include "output/marks/byte_picture.h"
#include "output/print/develop.h"
#include "output/scan/found_svg.h"
#include "scene/model/drawing.h"
#include "scene/model/layout.h"

namespace rakelight {

/// `found`: the kept drawing as the layout's panel has it; `how`: what its SVG says of itself.
Print found_picture(const Layout& layout, const Drawing& found, const HowFound& how, const BytePicture& scan);

}  // namespace rakelight
