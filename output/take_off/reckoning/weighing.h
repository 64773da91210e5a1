// How heavy the panel will be, as a range, and how far off the wall its weight hangs.
#pragma once

#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "output/take_off/reckoning/laid_volumes.h"
#include "output/take_off/reckoning/workshop.h"
#include "scene/model/panel.h"

namespace rakelight {

struct Layout;

/// One part of the weight: a family of pieces, grout, bed, board, frame.
struct WeightPart {
    std::string name;
    double kg = 0;
    double tolerance = 0;     ///< share, either way
    double off_board_mm = 0;  ///< of its centre of gravity before the board's front; negative behind
    double low_kg() const { return kg * (1 - tolerance); }
    double high_kg() const { return kg * (1 + tolerance); }
};

/// The whole is not known better than this before it is on a scale: common practice, no published source.
inline constexpr double kWholeTolerance = 0.15;

/// How well the weight of a material is known before it is weighed: 3 % for glass, 8 % for dense stone, 30 %
/// for stone full of bubbles, 10 % for timber, 15 % for boards, mixes and all else. From the spread of
/// published densities (EN 1991-1-1 and maker's figures), chosen with caution.
double density_tolerance(const Material& material);

struct Weighing {
    std::vector<WeightPart> parts;
    double face_m2 = 0;
    double likely_kg = 0;
    double low_kg = 0;  ///< parts all at their lightest, or 15 % less, whichever is farther
    double high_kg = 0;
    double off_wall_mm = 0;  ///< of the centre of gravity
    double kg_per_m2() const { return face_m2 > 0 ? likely_kg / face_m2 : 0; }
    /// What fixings are chosen for: a tenth above the high figure.
    double design_kg() const { return 1.1 * high_kg; }
};

/// Struts behind the board: as wished, or so that none is farther than 400 mm from the next where the panel
/// is over 0.28 m2 (3 sq ft). Common practice, no published source. Of one panel: `panel` is not divided.
int strut_count(const Panel& panel, const HangingWishes& wishes);

Weighing weigh(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
               const HangingWishes& wishes);

/// The same with the volumes worked out on the way.
Weighing weigh(const Layout& layout, const Laying& laying, const WorkshopWishes& workshop);

}  // namespace rakelight
