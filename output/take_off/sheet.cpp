#include "output/take_off/sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "output/lay/drawing.h"
#include "output/paper/list_setter.h"
#include "output/take_off/pages.h"
#include "scene/model/layout.h"
#include "scene/text/shown_amounts.h"

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

}  // namespace take_off_pages

namespace {

void figures(ListSetter& set, const TakeOff& t, Units units) {
    const double money = known_cost(t);
    const auto hours = t.hours.all();
    const int of = money > 0 ? 5 : 4;
    set.figure(
        shown_mass(t.weighing.likely_kg, units),
        shown_mass(t.weighing.low_kg, units) + " to " + shown_mass(t.weighing.high_kg, units) + ", finished",
        0, of);
    set.figure(shown_rounded(t.weighing.off_wall_mm, units), "centre of gravity off the wall", 1, of);
    set.figure(fmt::format("{:.0f} to {:.0f} h", hours.low_h, hours.high_h), "laying, masking, grouting", 2,
               of);
    set.figure(fmt::format("{} to {} days", t.plan.back().first_day, t.plan.back().unhurried_day),
               "from the last piece to sealing", 3, of);
    if (money > 0) set.figure(fmt::format("{:.0f}", money), "what has a price, own money", 4, of);
}

void materials(ListSetter& set, const Layout& layout, const Laying& laying, const LayingReport& report,
               const TakeOff& t) {
    const std::vector<Material>& stock = layout.stock;
    const std::string area_word = area_unit(layout.units), mass_word = small_mass_unit(layout.units);
    const auto area = [&](double mm2) { return shown_area(mm2, layout.units); };
    const auto grams = [&](double g) { return shown_small_mass(g, layout.units); };
    set.section("Pieces to buy");
    const bool priced = known_cost(t) > 0;
    set.columns({{27, "material", false, 32},
                 {70, "pieces"},
                 {81, "spare"},
                 {96, "laid " + area_word},
                 {108, "waste %"},
                 {122, "buy " + area_word},
                 {136, "laid " + mass_word},
                 {150, "buy " + mass_word},
                 {154, "in whole sheets, bags", false, 32},
                 {196, priced ? "cost" : ""}});
    double laid_mm2 = 0, laid_g = 0, bought_mm2 = 0, bought_g = 0;
    std::size_t pieces = 0;
    for (const Purchase& p : t.purchases) {
        const std::size_t count = p.pieces + p.stones;
        set.row({stock[p.material].name, std::to_string(count), std::to_string(p.spare_pieces),
                 area(p.net_mm2), fmt::format("{:.0f}", 100 * p.waste), area(p.bought_mm2), grams(p.net_g),
                 grams(p.bought_g), packs_text(p, layout.units),
                 p.cost > 0 ? fmt::format("{:.0f}", p.cost)
                 : priced   ? "-"
                            : ""},
                colour_of(laying, report, p.material));
        laid_mm2 += p.net_mm2, laid_g += p.net_g, bought_mm2 += p.bought_mm2, bought_g += p.bought_g;
        pieces += count;
    }
    set.row({"all", std::to_string(pieces), "", area(laid_mm2), "", area(bought_mm2), grams(laid_g),
             grams(bought_g), "", known_cost(t) > 0 ? fmt::format("{:.0f}", known_cost(t)) : ""},
            {}, true);
    set.paragraph(
        fmt::format("Weights are from the volumes of the pieces. Waste follows what is cut and how its rows "
                    "run; spares are "
                    "{:g} % of each, at least {} pieces. Sheets are counted by area: a colour of few pieces "
                    "fits on offcuts.",
                    100 * t.workshop.take_off.spare_share, t.workshop.take_off.least_spare));
}

void kiln(ListSetter& set, const std::vector<Material>& stock, const TakeOff& t, Units units) {
    if (t.fusings.empty()) return;
    set.section("Sheets to fuse");
    set.columns({{14, "material", false, 36},
                 {52, "stack, face first", false, 70},
                 {146, fmt::format("fires to {}", length_unit(units))},
                 {170, fmt::format("cut {} of each", area_unit(units))},
                 {196, "sheets of each"}});
    for (const Fusing& f : t.fusings) {
        std::string stack;
        for (const StackLayer& layer : f.stack.layers)
            stack += fmt::format("{}{} {}", stack.empty() ? "" : " + ", layer.glass,
                                 shown_number(layer.thickness_mm, units));
        set.row({stock[f.material].name, stack, shown_number(f.stack.fired.thickness_mm, units),
                 shown_area(f.cut_mm2, units), f.sheets > 0 ? std::to_string(f.sheets) : "-"});
    }
    set.paragraph(fmt::format(
        "Instead of the sheets above. A free stack over {0} spreads to {0}; two sheets of {1} keep "
        "their size, and may draw in by a hundredth.",
        shown_length(6, units), shown_length(3, units)));
}

void ladders(ListSetter& set, const std::vector<Material>& stock, const TakeOff& t, Units units) {
    if (t.castings.empty()) return;
    set.section("Shades to cast from frit");
    set.columns({{14, "material", false, 50}, {96, area_unit(units)}, {102, "frit to weigh", false, 94}});
    for (const Casting& c : t.castings)
        set.row({stock[c.material].name, shown_area(c.cast_mm2, units), frit_text(c)});
    const glm::dvec2 pane = t.workshop.take_off.sheet_mm;
    const int count = firings(t.castings, pane);
    set.paragraph(
        fmt::format("{} firing{} on a shelf of {}, shades dammed off from one another. Frit is "
                    "mixed by volume and weighed; waste and spares are in it.",
                    count, count == 1 ? "" : "s", shown_size({pane.x, pane.y}, units)));
}

void leaf(ListSetter& set, const std::vector<Material>& stock, const TakeOff& t, Units units) {
    if (t.leaf.empty()) return;
    set.section("Metal leaf");
    set.columns({{14, "leaf", false, 24},
                 {40, "on", false, 80},
                 {146, area_unit(units)},
                 {166, "leaves"},
                 {196, fmt::format("books of {}", kLeavesABook)}});
    for (const LeafNeed& need : t.leaf) {
        std::vector<std::string> on;
        for (const std::uint32_t m : need.materials) on.push_back(stock[m].name);
        set.row({leaf_text(need.leaf), fmt::format("{}", fmt::join(on, ", ")),
                 shown_area(need.gilded_mm2, units), std::to_string(need.leaves),
                 std::to_string(need.books)});
    }
    set.paragraph(
        fmt::format("Leaves of {} for all that is bought, gilded before it is cut, and {:g} % "
                    "for overlaps and tears.",
                    shown_length(kLeafSide_mm, units), 100 * kLeafWaste));
}

void beds(ListSetter& set, const std::vector<Material>& tints, const TakeOff& t, Units units) {
    set.section("Bed");
    set.columns({{14, "tint", false, 30},
                 {60, "under " + area_unit(units)},
                 {76, "cm³"},
                 {92, "net g"},
                 {108, "mix g"},
                 {119, "pots"},
                 {124, "pigment for the mix", false, 72}});
    for (const BedMix& bed : t.beds)
        set.row({tints[bed.tint].name, shown_area(bed.area_mm2, units),
                 fmt::format("{:.0f}", bed.volume_mm3 / 1000), fmt::format("{:.0f}", bed.batch.net_g),
                 fmt::format("{:.0f}", bed.batch.mix_g), std::to_string(bed.batch.pots),
                 pigments_text(bed.batch) + " in " + t.recipes.at(tints[bed.tint].name).recipe.base.name});
    set.paragraph(
        fmt::format("With {:g} % waste. The bed is taken to rise {:.0f} % of the pieces' height in the "
                    "joints. Epoxy is mixed in pots of {:.0f} g at most: more runs hot.",
                    100 * t.workshop.take_off.bed_waste, 100 * t.workshop.take_off.bed_rise, kEpoxyPot_g));
}

void hours(ListSetter& set, const std::vector<Field>& fields, const TakeOff& t, Units units) {
    set.section("Hours");
    set.columns({{14, "field", false, 60}, {110, area_unit(units)}, {136, "from h"}, {156, "to h"}});
    const auto line = [&](const std::string& name, double mm2, const WorkingHours::Hours& h, bool bold) {
        set.row({name, mm2 > 0 ? shown_area(mm2, units) : "", fmt::format("{:.1f}", h.low_h),
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
    ListSetter set(layout.panel.name.empty() ? "Take-off" : layout.panel.name, sheet_facts(layout, report),
                   sheet_source(layout, report));
    set.turn_page("Take-off");
    figures(set, t, layout.units);
    materials(set, layout, laying, report, t);
    kiln(set, layout.stock, t, layout.units);
    ladders(set, layout.stock, t, layout.units);
    leaf(set, layout.stock, t, layout.units);
    beds(set, layout.tints, t, layout.units);
    hours(set, layout.fields, t, layout.units);
    set_zone_pages(set, layout, laying, report, t);
    set_weight_pages(set, layout, laying, report, t);
    return set.finish();
}

}  // namespace rakelight
