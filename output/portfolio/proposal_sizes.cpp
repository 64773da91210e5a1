// The page of a proposal with the wall drawn to scale, sizes and weights.
#include <fmt/format.h>

#include <algorithm>

#include "output/portfolio/proposal_page.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

constexpr double kThin_mm = 0.18, kThick_mm = 0.35;

struct WallView {
    glm::dvec2 origin_mm;  // of the room's floor line, on the page
    double scale;
    glm::dvec2 at(const glm::dvec2& room) const { return origin_mm + scale * glm::dvec2(room.x, -room.y); }
};

void line(Page& page, const glm::dvec2& a, const glm::dvec2& b, double width = kThin_mm,
          const EncodedSrgb& colour = kProposalInk) {
    page.lines.push_back({{a, b}, width, colour});
}

// A measure with short ticks across its ends and its length beside it.
void measure(Page& page, const glm::dvec2& a, const glm::dvec2& b, const std::string& text) {
    line(page, a, b, kThin_mm, kProposalGrey);
    const bool upright = std::abs(b.x - a.x) < std::abs(b.y - a.y);
    const glm::dvec2 tick = upright ? glm::dvec2(1.1, 0) : glm::dvec2(0, 1.1);
    for (const glm::dvec2& end : {a, b}) line(page, end - tick, end + tick, kThin_mm, kProposalGrey);
    const glm::dvec2 middle = (a + b) / 2.0;
    if (text.empty()) return;
    if (upright)
        page.texts.push_back({text, middle + glm::dvec2(-2, 0.8), 2.4, false, Align::right, kProposalInk});
    else
        page.texts.push_back({text, middle + glm::dvec2(0, -1.6), 2.4, false, Align::centre, kProposalInk});
}

std::string cm(double mm) {
    return fmt::format("{:.1f} cm", mm / 10);
}

// A panel as it hangs: its middle on the wall, half its size with and without the frame.
struct Hung {
    glm::dvec2 centre, outer, inner;
};

// Every panel of every work, the layout's own first, those of a divided work from left to right.
std::vector<Hung> all_panels(const Layout& layout) {
    std::vector<Hung> all;
    for (const HungPanel& hung : hung_panels(layout)) {
        const Panel& work = hung.layout->panel;
        for (const PanelSpan& span : panel_spans(work)) {
            const Panel panel = panel_of(work, span);
            const double aside = (span.left_mm + span.right_mm - work.width_mm) / 2;
            all.push_back({glm::dvec2(hung.centre_mm) + glm::dvec2(aside, 0),
                           outer_half_mm(panel, layout.panel.lean_deg),
                           {panel.width_mm / 2, panel.height_mm / 2}});
        }
    }
    return all;
}

// Under two panels, what is between them.
void measure_gap(Page& page, const WallView& view, const Hung& left, const Hung& right) {
    const double from = left.centre.x + left.outer.x, to = right.centre.x - right.outer.x;
    const double under = left.centre.y - std::max(left.outer.y, right.outer.y) - 70;
    const glm::dvec2 a = view.at({from, under}), b = view.at({to, under});
    measure(page, a, b, "");
    for (const double x : {from, to})
        line(page, view.at({x, under}), view.at({x, left.centre.y - std::min(left.outer.y, right.outer.y)}),
             0.1, kProposalRule);
    page.texts.push_back({cm(to - from) + " apart", (a + b) / 2.0 + glm::dvec2(0, 4), 2.4, false,
                          Align::centre, kProposalInk});
}

void draw_wall(Page& page, const Layout& layout, const glm::dvec2& at_mm, const glm::dvec2& box_mm) {
    double left = 0, right = 0, top = 0;
    const std::vector<Hung> panels = all_panels(layout);
    for (const Hung& panel : panels) {
        left = std::min(left, panel.centre.x - panel.outer.x);
        right = std::max(right, panel.centre.x + panel.outer.x);
        top = std::max(top, panel.centre.y + panel.outer.y);
    }
    constexpr double kAside_mm = 420, kAbove_mm = 260;
    left -= kAside_mm, right += kAside_mm, top += kAbove_mm;
    const double scale = std::min(box_mm.x / (right - left), box_mm.y / top);
    const WallView view{at_mm + glm::dvec2(-left * scale, top * scale), scale};
    line(page, view.at({left, 0}), view.at({right, 0}), kThick_mm);
    page.texts.push_back(
        {"floor", view.at({left, 0}) + glm::dvec2(0, 4), 2.3, false, Align::left, kProposalGrey});
    for (const Hung& panel : panels) {
        const glm::dvec2 c = panel.centre, half = panel.outer;
        for (const glm::dvec2& h : {half, panel.inner}) {
            const glm::dvec2 low = view.at(c - h), high = view.at(c + h);
            page.lines.push_back(
                {{low, {high.x, low.y}, high, {low.x, high.y}, low}, kThin_mm, kProposalInk});
        }
        measure(page, view.at({c.x - half.x, c.y + half.y + 70}), view.at({c.x + half.x, c.y + half.y + 70}),
                cm(2 * half.x));
    }
    std::vector<Hung> in_turn = panels;
    std::ranges::sort(in_turn, {}, [](const Hung& panel) { return panel.centre.x; });
    for (std::size_t i = 0; i + 1 < in_turn.size(); ++i) measure_gap(page, view, in_turn[i], in_turn[i + 1]);
    const double side = left + kAside_mm - 80;
    const glm::dvec2 c = panels.front().centre, half = panels.front().outer;
    measure(page, view.at({side, c.y - half.y}), view.at({side, c.y + half.y}), cm(2 * half.y));
    const double far_side = right - 120;
    line(page, view.at({c.x, c.y}), view.at({right - 60, c.y}), 0.1, kProposalRule);
    measure(page, view.at({far_side, 0}), view.at({far_side, c.y}), cm(c.y));
    page.texts.push_back({"to the centre", view.at({far_side, c.y / 2}) + glm::dvec2(-2, 4), 2.2, false,
                          Align::right, kProposalGrey});
}

double row(Page& page, double x, double wide, double y, const std::string& what, const std::string& value,
           bool bold = false) {
    page.texts.push_back({what, {x, y}, 2.8, bold, Align::left, bold ? kProposalInk : kProposalGrey});
    page.texts.push_back({value, {x + wide, y}, 2.8, bold, Align::right, kProposalInk});
    return y + 4.9;
}

// What it weighs, part by part where there is room for it.
double write_panel(Page& page, const PanelFacts& f, bool parts, double x, double wide, double y) {
    page.texts.push_back({f.name, {x, y}, 3.4, true, Align::left, kProposalInk});
    y += 5.6;
    page.texts.push_back({"H × W × D", {x, y}, 2.4, false, Align::left, kProposalGrey});
    y = write_lines(page, size_text({f.size_mm.x, f.size_mm.y, f.size_mm.z}, f.units), {x, y + 4.2}, wide,
                    2.6, kProposalInk) +
        1.5;
    for (const WeightPart& part : parts ? f.weight.parts : std::vector<WeightPart>())
        y = row(page, x, wide, y, part.name,
                f.units == Units::inches ? fmt::format("{:.2f} lb", part.kg / kPound_kg)
                                         : fmt::format("{:.2f} kg", part.kg));
    if (parts) line(page, {x, y - 3.4}, {x + wide, y - 3.4}, kThin_mm, kProposalRule);
    y = row(page, x, wide, y + 1, "likely weight", weight_text(f.weight.likely_kg, f.units), true);
    return row(page, x, wide, y, "low to high", weight_range_text(f.weight, f.units)) + 6;
}

}  // namespace

PdfPage sizes_page(const Proposal& proposal) {
    PdfPage p = blank_page();
    write_heading(p.page, "Sizes and weight");
    const Layout& layout = *proposal.panels[0].layout;
    constexpr double kColumn_mm = 76;
    const double x = kProposalPage_mm.x - kProposalMargin_mm - kColumn_mm;
    const double wide = x - kProposalMargin_mm - 14;
    draw_wall(p.page, layout, {kProposalMargin_mm, kProposalTop_mm + 12}, {wide, 142});
    double y = kProposalTop_mm + 16;
    for (const ProposalPanel& panel : proposal.panels) {
        y = write_panel(p.page, panel.facts, true, x, kColumn_mm, y);
        for (const PanelFacts& own : panel.facts.each) y = write_panel(p.page, own, false, x, kColumn_mm, y);
    }
    write_lines(
        p.page,
        "Weights follow from the drawing. The finished panel is weighed, and that number is on its label. "
        "Wall and fixings are for local codes and licensed practice to judge.",
        {kProposalMargin_mm, kProposalFoot_mm - 14}, wide, 2.4, kProposalGrey);
    return p;
}

}  // namespace rakelight
