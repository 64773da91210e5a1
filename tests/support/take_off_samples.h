// A laid panel with its grout regions and volumes, for the tests of the take-off.
#pragma once

#include <vector>

#include "output/take_off/reckoning/grout_regions.h"
#include "output/take_off/reckoning/laid_volumes.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {

struct LaidSample {
    Layout layout;
    Laying laying;
    std::vector<Region> ground, regions;
    LaidVolumes volumes;
};

inline LaidSample laid_sample(Layout layout, double bed_rise = kBedRise) {
    LaidSample s;
    s.layout = std::move(layout);
    s.laying = lay(s.layout);
    std::vector<Ring> footprints;
    for (const SetStone& stone : s.laying.stones) footprints.push_back(stone.footprint_mm);
    s.ground = grounds_on_panel(s.layout, footprints);
    s.regions = grout_regions(s.layout, s.ground, footprints);
    s.volumes = laid_volumes(s.layout, s.laying, s.regions, bed_rise);
    return s;
}

/// Sawn squares in a grid, level, of one material.
inline Layout level_grid(double side_mm, double joint_mm, double width_mm, double height_mm) {
    Layout layout = sample_layout(Opus::regulatum, side_mm, side_mm, joint_mm);
    layout.panel.width_mm = width_mm;
    layout.panel.height_mm = height_mm;
    Field& field = layout.fields[0];
    field.tilt_deg = field.lippage_mm = 0;
    field.recess_mm = 1;
    field.setting.form = PieceForm::sawn;
    return layout;
}

/// A lump in a box of 34 by 28 by 20 mm.
inline PlacedStone slag_stone() {
    PlacedStone stone;
    stone.material = kSlag;
    stone.at_mm = {60, 60};
    stone.size_mm = {34, 28, 20};
    stone.proud_mm = 9;
    return stone;
}

/// Two fields side by side on 200 by 120 mm, parted at x = 100; the left one is listed first.
inline Layout two_grouts() {
    Layout layout = level_grid(10, 2, 200, 120);
    Field& left = add_figure(layout, {.points_mm = {{0, 0}, {100, 0}, {100, 120}, {0, 120}}});
    left.name = left.zone = "left";
    left.grout = kOther;
    layout.fields[1].name = layout.fields[1].zone = "right";
    return layout;
}

}  // namespace rakelight
