// Everything that is bought, mixed, waited for and carried to make a laid panel, in one value.
#pragma once

#include <functional>
#include <map>

#include "output/take_off/reckoning/cautions.h"
#include "output/take_off/reckoning/day_plan.h"
#include "output/take_off/reckoning/fused_stacks.h"
#include "output/take_off/reckoning/grout_batch.h"
#include "output/take_off/reckoning/kiln_ladders.h"
#include "output/take_off/reckoning/metal_leaf.h"
#include "output/take_off/reckoning/panels_apart.h"
#include "output/take_off/reckoning/purchase.h"
#include "output/take_off/reckoning/working_hours.h"

namespace rakelight {

struct Layout;
struct Sources;

/// A bed of one tint, under all the fields that have it.
struct BedMix {
    std::uint32_t tint = 0;  ///< index in Layout::tints
    double area_mm2 = 0;
    double volume_mm3 = 0;
    Batch batch;
};

/// A zone's mix.
struct ZoneMix {
    TintRecipe recipe;
    double waste = 0;
    Batch batch;
};

struct TakeOff {
    WorkshopWishes workshop;
    std::vector<Region> ground;   ///< of each field
    std::vector<Region> regions;  ///< of each field's grout
    LaidVolumes volumes;
    std::vector<Purchase> purchases;
    std::vector<Fusing> fusings;    ///< of those that are fused from sheets
    std::vector<Casting> castings;  ///< of those that are cast from frit
    std::vector<LeafNeed> leaf;
    std::vector<GroutZone> zones;
    std::vector<ZoneBoundary> boundaries;
    ZoneOrder order;
    std::vector<ZoneMix> mixes;  ///< one a zone
    std::vector<BedMix> beds;    ///< in the order of the tints
    std::map<std::string, TintRecipe> recipes;
    std::vector<PlanStep> plan;
    std::vector<std::string> pre_seal;  ///< open-pored materials
    Weighing weighing;                  ///< of the whole work
    std::vector<PanelApart> panels;
    std::vector<StoneAnchor> anchors;
    WorkingHours hours;
    std::vector<Caution> cautions;
    std::vector<std::string> warnings;  ///< zones too small, joints too narrow, circles, second batches

    /// Place of a zone in the order, from 1.
    std::size_t step_of(std::size_t zone) const;
};

/// How the layout file says its own materials are made.
struct Makings {
    std::map<std::string, Recipe> recipes;       ///< of tints
    std::map<std::string, FusedStack> stacks;    ///< of glass
    std::map<std::string, LadderShade> ladders;  ///< of glass
};
Makings makings_in(const Sources& sources);

/// `pause` is called now and then; it may throw to stop.
TakeOff take_off(
    const Layout& layout, const Laying& laying, const WorkshopWishes& workshop, const Makings& makings,
    const std::function<void()>& pause = [] {});

}  // namespace rakelight
