// The grout zones of a laid panel: how much joint each has, from geometry and by the rule of thumb, what it
// borders on, and whether a knife can part them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "materials/optics/material.h"
#include "output/take_off/reckoning/laid_volumes.h"
#include "output/take_off/reckoning/zone_order.h"

namespace rakelight {

struct Layout;

struct GroutZone {
    std::string name;
    std::string grout;                  ///< the tint's name
    std::uint32_t tint = 0;             ///< index in Layout::tints
    std::vector<std::uint32_t> fields;  ///< indices in Layout::fields
    Region region;                      ///< what is open while it is filled; pieces and stones included
    double area_mm2 = 0;                ///< without the stones that stand in it
    double joint_mm2 = 0;
    double depth_mm = 0;      ///< of its joints, in the mean
    double volume_mm3 = 0;    ///< from geometry
    double undercut_mm3 = 0;  ///< the part of it behind arrises, under leaning sides, round stones
    double rule_mm3 = 0;      ///< by the rule of thumb, at the same depth
    ZoneTraits traits;
};

/// Where two zones meet.
struct ZoneBoundary {
    std::size_t owner = 0;  ///< the zone whose grout fills the joint between them
    std::size_t other = 0;
    double length_mm = 0;
    double narrow_mm = 0;   ///< one tenth of the boundary joint is narrower
    double usual_mm = 0;    ///< half of it is narrower
    double too_narrow = 0;  ///< share narrower than kCleanCut_mm
};

/// A narrower joint cannot be cut clean between two grouts: common practice, no published source.
inline constexpr double kCleanCut_mm = 1;
/// A smaller zone has no stable batch: it is mixed by eye. Common practice, no published source.
inline constexpr double kLeastZone_mm2 = 1000;
/// Joints from here on take sanded grout (ANSI A108 practice: 1/8 in).
inline constexpr double kSandedFrom_mm = 3;

/// Volume of joints `depth_mm` deep between pieces of A by B over an area: (A + B) / (A B) x depth x joint x
/// area, the rule of thumb on grout bags.
double rule_of_thumb_mm3(double area_mm2, double a_mm, double b_mm, double joint_mm, double depth_mm);

/// A stone that drinks grout and keeps its stain: bare, without face or sealer.
bool open_pored(const Material& material);

/// L* under D65 of a cured tint, seen face-on, the mirrored part left out.
double cured_lightness(const Material& tint);

/// A zone's region without the stones that stand in it: where words can be read.
Region clear_of_stones(const GroutZone& zone, const Laying& laying);

/// Zones by name in the order of their fields; fields with open joints make none. `regions`: of
/// grout_regions. `pre_seal`: open pores are closed before any grout.
std::vector<GroutZone> grout_zones(const Layout& layout, const Laying& laying,
                                   const std::vector<Region>& regions, const LaidVolumes& volumes,
                                   bool pre_seal);

/// Of every two zones that touch for more than a few millimetres. `ground`: as for grout_regions.
std::vector<ZoneBoundary> zone_boundaries(const Layout& layout, const Laying& laying,
                                          const std::vector<Region>& ground,
                                          const std::vector<GroutZone>& zones);

}  // namespace rakelight
