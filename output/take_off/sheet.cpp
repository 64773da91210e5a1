#include "output/take_off/sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "output/lay/drawing.h"
#include "output/paper/list_setter.h"
#include "output/take_off/pages.h"
#include "scene/model/layout.h"

namespace rakelight {

using namespace take_off_pages;

namespace take_off_pages {

Rgb8 colour_of(const Laying& laying, const LayingReport& report, std::uint32_t material) {
    for (std::size_t i = 0; i < laying.pieces.size(); ++i)
        if (laying.pieces[i].material == material) return report.piece_colour[i];
    for (std::size_t i = 0; i < laying.stones.size(); ++i)
        if (laying.stones[i].material == material) return report.stone_colour[i];
    return {255, 255, 255};
}

Rgb8 colour_of(const LayingReport& report, const GroutZone& zone) {
    return report.joint_colour[zone.fields.front()];
}

std::string grams_text(double g) {
    return g >= 10'000 ? fmt::format("{:.1f} kg", g / 1000) : fmt::format("{:.0f} g", g);
}

}  // namespace take_off_pages

namespace {

void figures(ListSetter& set, const TakeOff& t) {
    const double money = known_cost(t);
    const auto hours = t.hours.all();
    const int of = money > 0 ? 5 : 4;
    set.figure(fmt::format("{:.1f} kg", t.weighing.likely_kg),
               fmt::format("{:.1f} to {:.1f} kg, finished", t.weighing.low_kg, t.weighing.high_kg), 0, of);
    set.figure(fmt::format("{:.0f} mm", t.weighing.off_wall_mm), "centre of gravity off the wall", 1, of);
    set.figure(fmt::format("{:.0f} to {:.0f} h", hours.low_h, hours.high_h), "laying, masking, grouting", 2,
               of);
    set.figure(fmt::format("{} to {} days", t.plan.back().first_day, t.plan.back().easy_day),
               "from the last piece to sealing", 3, of);
    if (money > 0) set.figure(fmt::format("{:.0f}", money), "what has a price, own money", 4, of);
}

void materials(ListSetter& set, const std::vector<Material>& stock, const Laying& laying,
               const LayingReport& report, const TakeOff& t) {
    set.section("Pieces to buy");
    const bool priced = known_cost(t) > 0;
    set.columns({{27, "material", false, 32},
                 {70, "pieces"},
                 {81, "spare"},
                 {96, "laid cm²"},
                 {108, "waste %"},
                 {122, "buy cm²"},
                 {136, "laid g"},
                 {150, "buy g"},
                 {154, "in whole packs", false, 32},
                 {196, priced ? "cost" : ""}});
    double laid_mm2 = 0, laid_g = 0, bought_mm2 = 0, bought_g = 0;
    std::size_t pieces = 0;
    for (const Purchase& p : t.purchases) {
        const std::size_t count = p.pieces + p.stones;
        set.row({stock[p.material].name, std::to_string(count), std::to_string(p.spare_pieces),
                 fmt::format("{:.0f}", p.net_mm2 / 100), fmt::format("{:.0f}", 100 * p.waste),
                 fmt::format("{:.0f}", p.bought_mm2 / 100), fmt::format("{:.0f}", p.net_g),
                 fmt::format("{:.0f}", p.bought_g), packs_text(p),
                 p.cost > 0 ? fmt::format("{:.0f}", p.cost)
                 : priced   ? "-"
                            : ""},
                colour_of(laying, report, p.material));
        laid_mm2 += p.net_mm2, laid_g += p.net_g, bought_mm2 += p.bought_mm2, bought_g += p.bought_g;
        pieces += count;
    }
    set.row(
        {"all", std::to_string(pieces), "", fmt::format("{:.0f}", laid_mm2 / 100), "",
         fmt::format("{:.0f}", bought_mm2 / 100), fmt::format("{:.0f}", laid_g),
         fmt::format("{:.0f}", bought_g), "", known_cost(t) > 0 ? fmt::format("{:.0f}", known_cost(t)) : ""},
        {}, true);
    set.paragraph(
        fmt::format("Weights are from the volumes of the pieces. Waste follows what is cut and how its rows "
                    "run; spares are "
                    "{:g} % of each, at least {} pieces. Sheets are counted by area: a colour of few pieces "
                    "fits on offcuts.",
                    100 * t.workshop.take_off.spare_share, t.workshop.take_off.least_spare));
}

void kiln(ListSetter& set, const std::vector<Material>& stock, const TakeOff& t) {
    if (t.fusings.empty()) return;
    set.section("Sheets to fuse");
    set.columns({{14, "material", false, 36},
                 {52, "stack, face first", false, 70},
                 {146, "fires to mm"},
                 {170, "cut cm² of each"},
                 {196, "sheets of each"}});
    for (const Fusing& f : t.fusings) {
        std::string stack;
        for (const StackLayer& layer : f.stack.layers)
            stack += fmt::format("{}{} {:g}", stack.empty() ? "" : " + ", layer.glass, layer.thickness_mm);
        set.row({stock[f.material].name, stack, fmt::format("{:.1f}", f.stack.fired.thickness_mm),
                 fmt::format("{:.0f}", f.cut_mm2 / 100), f.sheets > 0 ? std::to_string(f.sheets) : "-"});
    }
    set.paragraph(
        "Instead of the sheets above. A free stack over 6 mm spreads to 6 mm; two sheets of 3 mm keep "
        "their size, and may draw in by a hundredth.");
}

void beds(ListSetter& set, const std::vector<Material>& tints, const TakeOff& t) {
    set.section("Bed");
    set.columns({{14, "tint", false, 30},
                 {60, "under cm²"},
                 {76, "cm3"},
                 {92, "net g"},
                 {108, "mix g"},
                 {119, "pots"},
                 {124, "pigment for the mix", false, 72}});
    for (const BedMix& bed : t.beds)
        set.row({tints[bed.tint].name, fmt::format("{:.0f}", bed.area_mm2 / 100),
                 fmt::format("{:.0f}", bed.volume_mm3 / 1000), fmt::format("{:.0f}", bed.batch.net_g),
                 fmt::format("{:.0f}", bed.batch.mix_g), std::to_string(bed.batch.pots),
                 pigments_text(bed.batch) + " in " + t.recipes.at(tints[bed.tint].name).recipe.base.name});
    set.paragraph(
        fmt::format("With {:g} % waste. The bed is taken to rise {:.0f} % of the pieces' height in the "
                    "joints. Epoxy is mixed in pots of {:.0f} g at most: more runs hot.",
                    100 * t.workshop.take_off.bed_waste, 100 * t.workshop.take_off.bed_rise, kEpoxyPot_g));
}

void hours(ListSetter& set, const std::vector<Field>& fields, const TakeOff& t) {
    set.section("Hours");
    set.columns({{14, "field", false, 60}, {110, "cm2"}, {136, "from h"}, {156, "to h"}});
    const auto line = [&](const std::string& name, double mm2, const WorkingHours::Hours& h, bool bold) {
        set.row({name, mm2 > 0 ? fmt::format("{:.0f}", mm2 / 100) : "", fmt::format("{:.1f}", h.low_h),
                 fmt::format("{:.1f}", h.high_h)},
                {}, bold);
    };
    for (std::size_t f = 0; f < fields.size(); ++f)
        line(fields[f].name, t.volumes.fields[f].ground_mm2, t.hours.laying[f], false);
    line("masking", 0, t.hours.masking, false);
    line("grouting", 0, t.hours.grouting, false);
    line("all", 0, t.hours.all(), true);
}

}  // namespace

std::vector<Tracing> take_off_sheet(const Layout& layout, const Laying& laying, const LayingReport& report,
                                    const TakeOff& t) {
    ListSetter set(layout.panel.name.empty() ? "Take-off" : layout.panel.name,
                   sheet_facts(layout.panel, report), sheet_source(layout, report));
    set.turn_page("Take-off");
    figures(set, t);
    materials(set, layout.stock, laying, report, t);
    kiln(set, layout.stock, t);
    beds(set, layout.tints, t);
    hours(set, layout.fields, t);
    set_zone_pages(set, layout, laying, report, t);
    set_weight_pages(set, layout, laying, report, t);
    return set.finish();
}

}  // namespace rakelight
