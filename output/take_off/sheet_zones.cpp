// The grouting pages of the take-off: a plan of the zones, what is mixed for each, where they meet, which day
// each has.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "output/lay/drawing.h"
#include "output/paper/name_spot.h"
#include "output/paper/sheet_furniture.h"
#include "output/take_off/pages.h"
#include "scene/model/layout.h"
#include "scene/text/shown_amounts.h"

namespace rakelight::take_off_pages {

namespace {

using namespace furniture;

bool dark(const Rgb8& c) {
    return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2] < 130;
}

// The panel in the colours of its grouts, each zone with its step.
void plan(ListSetter& set, const Panel& panel, const Laying& laying, const LayingReport& report,
          const TakeOff& t) {
    constexpr double kMostHeight_mm = 92;
    const double scale = std::min((ListSetter::kRight_mm - ListSetter::kLeft_mm) / panel.width_mm,
                                  kMostHeight_mm / panel.height_mm);
    const OnSheet place{set.drawing(scale * panel.height_mm + 7), panel.height_mm, scale};
    TracedLayer zones{"zones", {{}, kBlack, 0.3, {}}, {}, {}, {}},
        stones{"stones", {kWhite, kGrey, 0.12, {}}, {}, {}, {}}, light{"turns", {}, {}, {}, {}};
    for (std::size_t z = 0; z < t.zones.size(); ++z) {
        const GroutZone& zone = t.zones[z];
        TracedShape shape = shape_of(zone.region, place);
        shape.fill = colour_of(report, zone);
        zones.shapes.push_back(std::move(shape));
        const Rgb8 ink = dark(colour_of(report, zone)) ? kWhite : kBlack;
        for (const Region& part : islands(clear_of_stones(zone, laying))) {
            const std::string step = std::to_string(t.step_of(z));
            const NameSpot spot = name_spot(part, step);
            const double em = std::min(0.7 * spot.em_mm * scale, 9.0);
            if (em >= 2)
                light.texts.push_back(
                    word(step, place(spot.at_mm) + glm::dvec2(0, 0.365 * em), em, true, Align::centre, ink));
        }
    }
    for (const SetStone& stone : laying.stones) stones.shapes.push_back(shape_of(stone.footprint_mm, place));
    // The key beside it, where there is room.
    const double x = place({panel.width_mm, 0}).x + 6;
    double y = place.corner_mm.y + 4;
    if (ListSetter::kRight_mm - x > 30)
        for (const std::size_t z : t.order.order) {
            const double most = ListSetter::kRight_mm - x - 8;
            light.texts.push_back(word(std::to_string(t.step_of(z)), {x, y}, 4.4, true));
            light.texts.push_back(cut(word(t.zones[z].name, {x + 8, y - 0.4}, 3, true), most));
            light.texts.push_back(word(t.zones[z].grout, {x + 8, y + 3.2}, 2.2, false, Align::left, kGrey));
            y += 9;
        }
    for (TracedLayer* layer : {&zones, &stones, &light}) set.page().layers.push_back(std::move(*layer));
}

void mixes(ListSetter& set, const LayingReport& report, const TakeOff& t, Units units) {
    set.section("What to mix, in this order");
    set.columns({{26, "zone", false, 30},
                 {57, "grout", false, 26},
                 {90, "L*"},
                 {104, area_unit(units)},
                 {117, "joints %"},
                 {129, fmt::format("depth {}", length_unit(units))},
                 {137, "cm³"},
                 {156, "rule of thumb"},
                 {170, "powder g"},
                 {183, "spare g"},
                 {196, "water g"}});
    for (const std::size_t z : t.order.order) {
        const GroutZone& zone = t.zones[z];
        const Batch& b = t.mixes[z].batch;
        set.row({fmt::format("{}  {}", t.step_of(z), zone.name), zone.grout,
                 fmt::format("{:.0f}", zone.traits.lightness), shown_area(zone.area_mm2, units),
                 fmt::format("{:.0f}", zone.area_mm2 > 0 ? 100 * zone.joint_mm2 / zone.area_mm2 : 0),
                 units == Units::metric ? fmt::format("{:.1f}", zone.depth_mm)
                                        : shown_number(zone.depth_mm, units),
                 fmt::format("{:.0f}", zone.volume_mm3 / 1000), fmt::format("{:.0f}", zone.rule_mm3 / 1000),
                 fmt::format("{:.0f}", b.mix_g), fmt::format("{:.0f}", b.spare_g),
                 fmt::format("{:.0f}", b.water_g)},
                colour_of(report, zone));
    }
    set.space(1);
    for (const std::size_t z : t.order.order) {
        const ZoneMix& mix = t.mixes[z];
        const Batch& b = mix.batch;
        set.paragraph(
            fmt::format(
                "{} into {:.0f} g of {}{} ({:.1f} % of its {}); {:.0f} % waste{}.{}", pigments_text(b),
                b.total_g, mix.recipe.recipe.base.name, b.spare_g > 0 ? ", spare included" : "",
                100 * b.pigment_share, b.epoxy ? "resin" : "cement", 100 * mix.waste,
                b.pots > 1 ? fmt::format("; blended at once, wetted in {} parts", b.pots) : "",
                mix.recipe.of_the_layout
                    ? ""
                    : fmt::format(" The nearest recipe to the colour {}, CIEDE2000 {:.1f} off, or as bought.",
                                  t.zones[z].grout, mix.recipe.delta_e)),
            fmt::format("{}  {}", t.step_of(z),
                        cut(word(t.zones[z].name, {}, ListSetter::kType_mm, true), 26).text));
    }
    std::string behind;
    for (const std::size_t z : t.order.order)
        behind += fmt::format("{}{} in {}", behind.empty() ? "" : ", ",
                              std::lround(t.zones[z].undercut_mm3 / 1000), t.zones[z].name);
    set.paragraph(
        "Cm³ are from the pieces' own shapes, with what lies behind worn arrises, under leaning sides and "
        "round "
        "stones (" +
        behind +
        "); \"rule of thumb\" is (A + B) / (A B) x depth x joint x area. "
        "Pigment is weighed to 0.1 g and blended dry into all the powder, 3 to 5 min, before water; "
        "slake 5 to 10 min. The spare is kept dry, labelled with zone, recipe and date. The built-in "
        "pigments are invented: mix a sample before a batch, and judge it at 28 days.");
}

void boundaries(ListSetter& set, const TakeOff& t, Units units) {
    if (t.boundaries.empty()) return;
    const std::string unit = length_unit(units);
    const auto tenths = [&](double mm) {
        return units == Units::metric ? fmt::format("{:.1f}", mm) : shown_number(mm, units);
    };
    set.section("Where zones meet");
    set.columns({{14, "the joint belongs to", false, 50},
                 {66, "beside", false, 40},
                 {122, "length " + unit},
                 {142, "usual " + unit},
                 {168, "narrowest 10 % " + unit},
                 {196, "under " + shown_length(1, units)}});
    for (const ZoneBoundary& b : t.boundaries)
        set.row(
            {t.zones[b.owner].name, t.zones[b.other].name,
             units == Units::metric ? fmt::format("{:.0f}", b.length_mm) : shown_number(b.length_mm, units),
             tenths(b.usual_mm), tenths(b.narrow_mm), fmt::format("{:.0f} %", 100 * b.too_narrow)});
}

void reasons(ListSetter& set, const TakeOff& t) {
    set.section("Why in this order");
    for (const OrderEdge& edge : t.order.edges)
        set.paragraph(sentence(reason_text(t, edge) +
                               (edge.given_up ? " (dropped: it contradicts another wish)" : "")));
    for (const auto& [a, b] : t.order.alike)
        set.paragraph(fmt::format("{} and {}: either first, they are nearly as light.", t.zones[a].name,
                                  t.zones[b].name));
    if (t.order.edges.empty() && t.order.alike.empty())
        set.paragraph("No two zones touch: lightest first, upper before lower.");
}

void days(ListSetter& set, const std::vector<Field>& fields, const TakeOff& t) {
    set.turn_page("Day plan");
    set.section("From the last piece laid (day 0)");
    set.columns({{26, "earliest day"}, {44, "unhurried"}, {50, "what", false, 0}});
    for (const PlanStep& step : t.plan) {
        set.row({std::to_string(step.first_day), std::to_string(step.unhurried_day), step.what}, {}, true);
        set.note(step.how, 50);
        if (step.zone >= 0)
            set.note(
                fmt::format("mask: templates/{}.pdf", template_name(t, static_cast<std::size_t>(step.zone))),
                50);
        set.space(0.8);
    }
    set.paragraph(
        "At 20 to 23 C and 50 % relative humidity; the makers' data sheets come first. Low-tack tape, left "
        "on "
        "no longer than a day; its edge on the far side of the boundary joint, burnished on the pieces.");
    if (!t.pre_seal.empty() && t.workshop.zones.pre_seal)
        set.paragraph(
            fmt::format("Open pores keep grout for good: {} are sealed or waxed before the first zone.",
                        fmt::join(t.pre_seal, ", ")));
    std::vector<std::string> open;
    for (const Field& field : fields)
        if (!field.grout) open.push_back(field.name);
    if (!open.empty())
        set.paragraph(
            fmt::format("Joints that stay open are masked all the while: {}.", fmt::join(open, ", ")));
    if (t.warnings.empty()) return;
    set.section("Beware");
    for (const std::string& warning : t.warnings) set.paragraph(sentence(warning));
}

}  // namespace

void set_zone_pages(ListSetter& set, const Layout& layout, const Laying& laying, const LayingReport& report,
                    const TakeOff& t) {
    if (t.zones.empty()) return;
    set.turn_page("Grout zones");
    plan(set, layout.panel, laying, report, t);
    mixes(set, report, t, layout.units);
    boundaries(set, t, layout.units);
    reasons(set, t);
    days(set, layout.fields, t);
}

}  // namespace rakelight::take_off_pages
