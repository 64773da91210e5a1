#include <fmt/format.h>

#include "output/take_off/json.h"
#include "output/take_off/sheet.h"
#include "scene/model/layout.h"
#include "scene/text/csv.h"

namespace rakelight {

namespace {

void add_line(std::string& out, const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i) out.push_back(',');
        append_csv(out, cells[i]);
    }
    out += "\r\n";
}

std::string plain(double value, int decimals) {
    return fmt::format("{:.{}f}", value, decimals);
}

}  // namespace

std::string take_off_csv(const Layout& layout, const TakeOff& t) {
    std::string out;
    add_line(out, {"part", "name", "pieces", "spare_pieces", "net_cm2", "waste_percent", "buy_cm2", "net_g",
                   "buy_g", "packs", "pack", "cost", "pigment"});
    for (const Purchase& p : t.purchases)
        add_line(out, {"pieces", layout.stock[p.material].name, std::to_string(p.pieces + p.stones),
                       std::to_string(p.spare_pieces), plain(p.net_mm2 / 100, 1), plain(100 * p.waste, 1),
                       plain(p.bought_mm2 / 100, 1), plain(p.net_g, 1), plain(p.bought_g, 1),
                       std::to_string(p.packs), packs_text(p), p.cost > 0 ? plain(p.cost, 2) : "", ""});
    for (const Casting& c : t.castings)
        for (const auto& [name, g] : {std::pair(&c.shade.from, c.from_g), {&c.shade.to, c.to_g}})
            if (g > 0)
                add_line(out, {"frit", *name + " for " + layout.stock[c.material].name, "", "", "", "", "",
                               "", plain(g, 1), "", "", "", ""});
    for (const LeafNeed& need : t.leaf)
        add_line(out, {"leaf", leaf_text(need.leaf), std::to_string(need.leaves), "", "",
                       plain(100 * kLeafWaste, 1), plain(need.gilded_mm2 / 100, 1), "", "",
                       std::to_string(need.books), fmt::format("book of {}", kLeavesABook), "", ""});
    for (const BedMix& bed : t.beds)
        add_line(out, {"bed", layout.tints[bed.tint].name, "", "", plain(bed.area_mm2 / 100, 1),
                       plain(100 * t.workshop.take_off.bed_waste, 1), "", plain(bed.batch.net_g, 1),
                       plain(bed.batch.total_g, 1), std::to_string(bed.batch.pots), "pot", "",
                       pigments_text(bed.batch)});
    for (const std::size_t z : t.order.order) {
        const Batch& b = t.mixes[z].batch;
        add_line(out, {"grout", t.zones[z].name + ": " + t.zones[z].grout, "", "",
                       plain(t.zones[z].area_mm2 / 100, 1), plain(100 * t.mixes[z].waste, 1), "",
                       plain(b.net_g, 1), plain(b.total_g, 1), std::to_string(b.pots), "mix", "",
                       pigments_text(b)});
    }
    for (const WeightPart& part : t.weighing.parts)
        if (part.name == "board" || part.name == "frame" || part.name == "struts")
            add_line(out, {part.name,
                           part.name == "board"   ? layout.stock[layout.panel.substrate.material].name
                           : part.name == "frame" ? layout.stock[layout.panel.frame->material].name
                                                  : "timber",
                           "", "", "", "", "", plain(1000 * part.kg, 0), "", "", "", "", ""});
    return out;
}

std::string zones_csv(const TakeOff& t) {
    std::string out;
    add_line(out, {"step", "zone", "grout", "lightness", "area_cm2", "joint_cm2", "depth_mm", "volume_cm3",
                   "rule_of_thumb_cm3", "net_g", "mix_g", "spare_g", "water_g", "mixes", "pigment",
                   "earliest_day", "unhurried_day"});
    for (const std::size_t z : t.order.order) {
        const GroutZone& zone = t.zones[z];
        const Batch& b = t.mixes[z].batch;
        std::string first, unhurried;
        for (const PlanStep& step : t.plan)
            if (step.zone == static_cast<int>(z))
                first = std::to_string(step.first_day), unhurried = std::to_string(step.unhurried_day);
        add_line(out, {std::to_string(t.step_of(z)), zone.name, zone.grout, plain(zone.traits.lightness, 1),
                       plain(zone.area_mm2 / 100, 1), plain(zone.joint_mm2 / 100, 1), plain(zone.depth_mm, 2),
                       plain(zone.volume_mm3 / 1000, 1), plain(zone.rule_mm3 / 1000, 1), plain(b.net_g, 1),
                       plain(b.mix_g, 0), plain(b.spare_g, 0), plain(b.water_g, 0), std::to_string(b.pots),
                       pigments_text(b), first, unhurried});
    }
    return out;
}

}  // namespace rakelight
