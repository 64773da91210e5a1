// Where a panel shows a lamp rather than itself: places in which mirrored light, taken together as an eye
// does that does not look for single glints, outshines the pieces' own.
#pragma once

#include <vector>

#include "output/glare/measures/panel_glare.h"

namespace rakelight {

/// A patch and its pixels, joints and duller pieces between included.
struct FoundPatch : BrightPatch {
    std::vector<std::size_t> pixels;
};

/// What patches are sought in. All of every pixel of the film, in cd/m2.
struct MirroredView {
    const Film& film;
    const std::vector<SeenPatch>& seen;
    const std::vector<double>& mirrored;  ///< of all lamps or of one
    const std::vector<double>& body;      ///< round the pixel; above 0
    double pixel_deg = 0;                 ///< of the middle pixel
};

/// Connected places in which what pieces mirror, averaged over kTogether_deg, is more than `times` the body;
/// the largest first, those left out that only touch it. Their `group` is left at 0. Averaging widens a patch
/// whose light is p times the limit by kTogether_deg (1 - 2 / p); their sizes are given without that (exact
/// for straight edges).
std::vector<FoundPatch> bright_patches(const MirroredView& view, double times);

}  // namespace rakelight
