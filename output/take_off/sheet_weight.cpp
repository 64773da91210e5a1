// The pages of the take-off that are about weight: parts, stones to be anchored, loads of hanging, cautions.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "output/lay/drawing.h"
#include "output/paper/sheet_furniture.h"
#include "output/take_off/pages.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/text/shown_amounts.h"

namespace rakelight::take_off_pages {

namespace {

using namespace furniture;

void parts(ListSetter& set, const Weighing& w, Units units) {
    const bool inches = units == Units::inches;
    const auto mass = [&](double kg, int decimals) {
        return fmt::format("{:.{}f}", inches ? kg / kPound_kg : kg, decimals);
    };
    set.section(inches ? "Weight, lb" : "Weight, kg");
    set.columns({{14, "part", false, 60},
                 {96, "low"},
                 {116, "likely"},
                 {136, "high"},
                 {172, inches ? "off the board in" : "off the board mm"}});
    for (const WeightPart& part : w.parts)
        set.row({part.name, mass(part.low_kg(), 2), mass(part.kg, 2), mass(part.high_kg(), 2),
                 inches ? shown_number(part.off_board_mm, units) : fmt::format("{:.0f}", part.off_board_mm)});
    set.row({"all", mass(w.low_kg, 1), mass(w.likely_kg, 1), mass(w.high_kg, 1), ""}, {}, true);
}

void on_weighing(ListSetter& set, const Weighing& w) {
    set.paragraph(
        fmt::format("{:.0f} kg/m². The whole is given at least {:.0f} % either way. Porous stone soaks up 10 "
                    "to 25 % of its "
                    "weight when grouted wet. The finished panel is weighed on a scale, and the label "
                    "carries that number.",
                    w.kg_per_m2(), 100 * kWholeTolerance));
}

void struts(ListSetter& set, int count, const HangingWishes& wishes) {
    set.paragraph(
        count > 0 ? fmt::format("{} upright strut{} {:g} x {:g} mm behind the board, so that none is "
                                "more than 400 mm from the next; both faces of the board primed.",
                                count, count == 1 ? "" : "s", wishes.strut_mm.x, wishes.strut_mm.y)
                  : std::string("No struts behind the board: it is small enough without (0.28 m², 3 sq ft). "
                                "Both faces of the board primed."));
}

// A work of several panels: what is on each, and what each weighs.
void panels(ListSetter& set, const Layout& layout, const TakeOff& t) {
    const bool inches = layout.units == Units::inches;
    const auto mass = [&](double kg) { return fmt::format("{:.1f}", inches ? kg / kPound_kg : kg); };
    set.section("Panels, from left to right");
    set.columns({{14, "panel", false, 44},
                 {82, std::string("x from ") + length_unit(layout.units)},
                 {102, std::string("to ") + length_unit(layout.units)},
                 {118, "pieces"},
                 {132, "stones"},
                 {152, inches ? "low lb" : "low kg"},
                 {172, "likely"},
                 {190, "high"}});
    for (const PanelApart& panel : t.panels)
        set.row({panel.span.name, shown_number(panel.span.left_mm, layout.units),
                 shown_number(panel.span.right_mm, layout.units), std::to_string(panel.pieces),
                 std::to_string(panel.stones), mass(panel.weighing.low_kg), mass(panel.weighing.likely_kg),
                 mass(panel.weighing.high_kg)});
    set.paragraph(
        fmt::format("Each panel hangs from fixings of its own; {} between frames or panels on the wall. "
                    "The stock is one list for all, and x counts from the left edge of the whole work.",
                    shown_length(layout.panel.divided->gap_mm, layout.units)));
}

void hanging(ListSetter& set, const HangingLoad& l, Units units) {
    const auto rated = [&](double kg) {
        return units == Units::inches ? fmt::format("{:.0f} lb", kg / kPound_kg)
                                      : fmt::format("{:.0f} kg", kg);
    };
    set.section("Hanging: what has to be held", 40);
    set.paragraph(fmt::format("{}: the high figure and a tenth. {:.0f} N down; its centre of gravity is "
                              "{} off the wall; {} from the upper fixing down to where it bears.",
                              shown_mass(l.design_kg, units), l.weight_n, shown_rounded(l.off_wall_mm, units),
                              shown_rounded(l.lever_mm, units)),
                  "Design load");
    set.paragraph(
        fmt::format("{:.0f} N straight out at the top in all (weight x distance off the wall / height).",
                    l.pull_out_n),
        "Pull-out");
    set.paragraph(
        fmt::format("{} apart: {:.0f} N down and {:.0f} N out each while both bear; either one "
                    "may come to carry all of it. Each: rated {} as a working load, or {} "
                    "where only a breaking load is known (factor {:g}). Ask which of the two is printed.",
                    shown_rounded(l.points_apart_mm, units), l.point_shear_n, l.point_pull_n,
                    rated(l.rated_working_kg), rated(l.rated_breaking_kg), l.factor),
        "Two points");
    set.paragraph(
        fmt::format("Bevelled, hardwood or metal, at least {} long, 4 fixings or more: {:.0f} N "
                    "down for each metre and {:.0f} N out at the top in all. A spacer as deep as the "
                    "cleat at the lower edge, a screw against lifting off.",
                    shown_rounded(l.cleat_mm, units), l.cleat_shear_n_per_m, l.pull_out_n),
        "Cleat");
    set.paragraph(
        fmt::format("Not above 10 to 15 kg. Each leg would pull {:.0f} N at 30 degrees below level, "
                    "{:.0f} N at 15.",
                    l.wire_30_n, l.wire_15_n),
        "Wire");
    set.paragraph(l.cart         ? "A cart, and two people at least."
                  : l.people > 1 ? "Two people."
                                 : "One person; two are better.",
                  "To lift");
    set.paragraph(l.ask.empty()
                      ? "An engineer or the local code in an earthquake zone, over beds, seats or doors, "
                        "in public buildings, on stairs, outdoors, above 50 kg or 73 kg/m². Say so under "
                        "`hanging: place`."
                      : fmt::format("A licensed engineer, the local code and the building's owner, since "
                                    "{}.",
                                    fmt::join(l.ask, "; and ")),
                  "Ask");
}

void anchors(ListSetter& set, const Layout& layout, const Laying& laying, const TakeOff& t) {
    set.turn_page("Stones to be anchored");
    if (t.anchors.empty()) {
        set.paragraph(
            "None: no stone is heavy and shallow, stands far out of little bed, or pulls on its bed by a "
            "long "
            "lever.");
        return;
    }
    const double scale = std::min((ListSetter::kRight_mm - ListSetter::kLeft_mm) / layout.panel.width_mm,
                                  110 / layout.panel.height_mm);
    const OnSheet place{set.drawing(scale * layout.panel.height_mm + 7), layout.panel.height_mm, scale};
    TracedLayer edge{"panel", {{}, kBlack, 0.3, {}}, {}, {}, {}};
    for (const Ring& ring : panel_region(layout.panel).rings) edge.shapes.push_back(shape_of(ring, place));
    set.page().layers.push_back(std::move(edge));
    TracedLayer zones{"zones", {{}, kGrey, 0.12, {}}, {}, {}, {}},
        plain{"stones", {kPale, kGrey, 0.15, {}}, {}, {}, {}},
        flagged{"to be anchored", {kWhite, kRed, 0.5, {}}, {}, {}, {}};
    for (const GroutZone& zone : t.zones) zones.shapes.push_back(shape_of(zone.region, place));
    for (const SetStone& stone : laying.stones) plain.shapes.push_back(shape_of(stone.footprint_mm, place));
    for (const StoneAnchor& a : t.anchors) {
        flagged.shapes.push_back(shape_of(a.outline_mm, place));
        flagged.texts.push_back(word(std::to_string(a.number), place(a.at_mm) + glm::dvec2(0, 1.1), 3, true,
                                     Align::centre, kRed));
    }
    for (TracedLayer* layer : {&zones, &plain, &flagged}) set.page().layers.push_back(std::move(*layer));
    set.columns({{14, "", false},
                 {20, "stone", false, 28},
                 {50, "material", false, 26},
                 {94, fmt::format("x, y {}", length_unit(layout.units))},
                 {108, small_mass_unit(layout.units)},
                 {114, "why", false, 0}});
    for (const StoneAnchor& a : t.anchors) {
        const std::vector<PanelSpan> spans = panel_spans(layout.panel);
        if (spans.size() > 1) set.note(spans[span_at(spans, a.at_mm.x)].name, 114);
        set.row({std::to_string(a.number), a.id, layout.stock[a.material].name,
                 layout.units == Units::metric
                     ? fmt::format("{:.0f}, {:.0f}", a.at_mm.x, a.at_mm.y)
                     : shown_number(a.at_mm.x, layout.units) + ", " + shown_number(a.at_mm.y, layout.units),
                 shown_small_mass(a.mass_g, layout.units), a.reasons.front()});
        for (std::size_t i = 1; i < a.reasons.size(); ++i) set.note(a.reasons[i], 114);
        set.note("usual: " + a.how, 114);
        set.space(1.4);
    }
    set.paragraph(
        "The map flags; it does not say that an anchor holds. Edge distance at least 3 pin diameters in "
        "stone, 20 mm (0.79 in) in board. Common practice, no published source.");
}

}  // namespace

void set_weight_pages(ListSetter& set, const Layout& layout, const Laying& laying, const LayingReport&,
                      const TakeOff& t) {
    const bool divided = t.panels.size() > 1;
    if (divided) {
        set.turn_page("Weight of the whole work");
        parts(set, t.weighing, layout.units);
        on_weighing(set, t.weighing);
        panels(set, layout, t);
    }
    for (const PanelApart& panel : t.panels) {
        set.turn_page(divided ? "Weight and hanging: " + panel.span.name : "Weight and hanging");
        parts(set, panel.weighing, layout.units);
        if (!divided) on_weighing(set, panel.weighing);
        struts(set, panel.struts, t.workshop.hanging);
        hanging(set, panel.load, layout.units);
    }
    anchors(set, layout, laying, t);
    set.turn_page("Cautions");
    for (const Caution& caution : t.cautions) set.paragraph(caution.text, caution.about);
    set.paragraph("Reminders, not advice. Data sheets, local codes and licensed practice come first.");
}

}  // namespace rakelight::take_off_pages
