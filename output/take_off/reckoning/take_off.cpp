#include "output/take_off/reckoning/take_off.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "output/take_off/reckoning/grout_regions.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kThickBed_mm = 5;  // common practice, no published source

ZoneMix mix_of(const TakeOff& t, const GroutZone& zone) {
    const ZoneWishes& wishes = t.workshop.zones;
    const auto each = wishes.each.find(zone.name);
    const ZoneWish own = each != wishes.each.end() ? each->second : ZoneWish{};
    ZoneMix mix;
    mix.recipe = t.recipes.at(zone.grout);
    const double net_g = zone.volume_mm3 / 1000 * mix.recipe.recipe.base.weighed_g_per_cm3;
    const bool small = zone.area_mm2 < kLeastZone_mm2 || net_g < kLeastBatch_g;
    mix.waste = own.waste.value_or(small ? wishes.small_waste : wishes.waste);
    mix.batch = make_batch(zone.volume_mm3, mix.recipe.recipe,
                           {mix.waste, own.spare_g.value_or(wishes.spare_g.value_or(usual_spare_g(net_g))),
                            own.water.value_or(wishes.water), wishes.most_batch_g});
    return mix;
}

std::vector<BedMix> beds_of(const TakeOff& t, const Layout& layout) {
    std::vector<BedMix> beds;
    for (std::uint32_t tint = 0; tint < layout.tints.size(); ++tint) {
        BedMix bed;
        bed.tint = tint;
        for (std::size_t f = 0; f < layout.fields.size(); ++f) {
            if (layout.fields[f].bed != tint) continue;
            bed.area_mm2 += t.volumes.fields[f].ground_mm2;
            bed.volume_mm3 += t.volumes.fields[f].bed_mm3;
        }
        if (bed.volume_mm3 <= 0) continue;
        bed.batch = make_batch(
            bed.volume_mm3, t.recipes.at(layout.tints[tint].name).recipe,
            {t.workshop.take_off.bed_waste, 0, t.workshop.zones.water, t.workshop.zones.most_batch_g});
        beds.push_back(std::move(bed));
    }
    return beds;
}

std::vector<std::string> open_pored_materials(const std::vector<Material>& stock, const Laying& laying) {
    std::vector<char> laid(stock.size(), 0);
    for (const Piece& piece : laying.pieces) laid[piece.material] = 1;
    for (const SetStone& stone : laying.stones) laid[stone.material] = 1;
    std::vector<std::string> names;
    for (std::size_t m = 0; m < laid.size(); ++m)
        if (laid[m] && open_pored(stock[m])) names.push_back(stock[m].name);
    return names;
}

void order_the_zones(TakeOff& t) {
    std::vector<ZoneTraits> traits;
    for (const GroutZone& zone : t.zones) traits.push_back(zone.traits);
    std::vector<std::pair<std::size_t, std::size_t>> touching;
    for (const ZoneBoundary& b : t.boundaries) touching.push_back(std::minmax(b.owner, b.other));
    t.order = order_zones(traits, touching, t.workshop.zones.order);
}

std::vector<std::string> warnings_of(const TakeOff& t, const Layout& layout) {
    std::vector<std::string> out;
    const auto name = [&](std::size_t zone) { return t.zones[zone].name; };
    for (std::size_t z = 0; z < t.zones.size(); ++z) {
        if (t.zones[z].area_mm2 < kLeastZone_mm2)
            out.push_back(fmt::format("zone {} has {:.0f} mm2, under {:.0f}: no stable batch, mix by eye",
                                      name(z), t.zones[z].area_mm2, kLeastZone_mm2));
        if (t.mixes[z].batch.pots > 1)
            out.push_back(fmt::format("zone {} takes {} mixes: blend all of it dry at once, or it will show",
                                      name(z), t.mixes[z].batch.pots));
        for (const std::string& line : recipe_warnings(t.mixes[z].recipe.recipe))
            out.push_back(fmt::format("zone {}: {}", name(z), line));
    }
    for (const ZoneBoundary& b : t.boundaries)
        if (b.too_narrow > 0.1)
            out.push_back(
                fmt::format("between {} and {} {:.0f} % of the joint is under {:g} mm and cannot be "
                            "cut clean",
                            name(b.owner), name(b.other), 100 * b.too_narrow, kCleanCut_mm));
    for (const auto& cycle : t.order.cycles) {
        std::vector<std::string> names;
        for (const std::size_t z : cycle) names.push_back(name(z));
        names.push_back(names.front());
        out.push_back(fmt::format("the order goes round in a circle, {}; its weakest reason was dropped",
                                  fmt::join(names, " before ")));
    }
    std::vector<std::string> thick;
    double thickest = 0;
    for (std::size_t f = 0; f < layout.fields.size(); ++f)
        if (const double mm = t.volumes.fields[f].bed_under_mm; mm > kThickBed_mm) {
            thick.push_back(layout.fields[f].name);
            thickest = std::max(thickest, mm);
        }
    if (!thick.empty())
        out.push_back(fmt::format(
            "the bed is up to {:.0f} mm thick, where 2 to 3 mm are usual, under {}: thin pieces are "
            "better backed up to the level of the thick ones",
            thickest, fmt::join(thick, ", ")));
    for (const Purchase& p : t.purchases)
        if (p.have >= 0 &&
            static_cast<std::size_t>(p.have) < p.pieces + static_cast<std::size_t>(p.spare_pieces))
            out.push_back(fmt::format("of {} there are {} pieces: enough to lay, but not for spares",
                                      layout.stock[p.material].name, p.have));
    return out;
}

}  // namespace

std::size_t TakeOff::step_of(std::size_t zone) const {
    return static_cast<std::size_t>(std::find(order.order.begin(), order.order.end(), zone) -
                                    order.order.begin()) +
           1;
}

Makings makings_in(const Sources& sources) {
    return {recipes_in(sources), stacks_in(sources), ladders_in(sources)};
}

TakeOff take_off(const Layout& layout, const Laying& laying, const WorkshopWishes& workshop,
                 const Makings& makings, const std::function<void()>& pause) {
    TakeOff t;
    t.workshop = workshop;
    std::vector<Ring> footprints;
    for (const SetStone& stone : laying.stones) footprints.push_back(stone.footprint_mm);
    t.ground = grounds_on_panel(layout, footprints);
    t.regions = grout_regions(layout, t.ground, footprints);
    pause();
    t.volumes = laid_volumes(layout, laying, t.regions, workshop.take_off.bed_rise);
    pause();
    t.purchases = purchases(layout, laying, t.volumes, workshop.take_off);
    t.castings = castings(layout.stock, t.purchases, makings.ladders);
    t.leaf = leaf_needs(layout.stock, t.purchases);
    t.fusings = fusings(layout.stock, t.purchases, makings.stacks);
    t.recipes = tint_recipes(layout.tints, makings.recipes, pause);
    t.zones = grout_zones(layout, laying, t.regions, t.volumes, workshop.zones.pre_seal);
    t.boundaries = zone_boundaries(layout, laying, t.ground, t.zones);
    order_the_zones(t);
    for (const GroutZone& zone : t.zones) t.mixes.push_back(mix_of(t, zone));
    t.beds = beds_of(t, layout);
    t.pre_seal = open_pored_materials(layout.stock, laying);
    t.plan = day_plan(layout, t.zones, t.order.order,
                      workshop.zones.pre_seal ? t.pre_seal : std::vector<std::string>{});
    t.weighing = weigh(layout, laying, t.volumes, workshop.hanging);
    t.panels = panels_apart(layout, laying, t.volumes, t.regions, workshop.hanging);
    t.anchors = stone_anchors(layout, laying, t.volumes);
    t.hours = working_hours(layout.fields, t.volumes, t.zones, t.boundaries, workshop.take_off);
    const PanelApart& most = heaviest(t.panels);
    t.cautions = cautions(layout, most.weighing, most.load, t.anchors, t.recipes);
    t.warnings = warnings_of(t, layout);
    return t;
}

}  // namespace rakelight
