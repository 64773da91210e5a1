// The page of a proposal with the wall drawn to scale, sizes and weights.
#include <fmt/format.h>

#include <algorithm>

#include "output/portfolio/proposal_page.h"
#include "scene/model/layout.h"
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

using Hung = std::pair<HungPanel, glm::dvec2>;  // and half its outer size

// Under the panels, what is between them.
void measure_gap(Page& page, const WallView& view, const std::vector<Hung>& panels) {
    const bool on_left = panels[1].first.centre_mm.x < panels[0].first.centre_mm.x;
    const auto& [left, left_half] = panels[on_left ? 1 : 0];
    const auto& [right, right_half] = panels[on_left ? 0 : 1];
    const double from = left.centre_mm.x + left_half.x, to = right.centre_mm.x - right_half.x;
    const double under = left.centre_mm.y - std::max(left_half.y, right_half.y) - 70;
    const glm::dvec2 a = view.at({from, under}), b = view.at({to, under});
    measure(page, a, b, "");
    for (const double x : {from, to})
        line(page, view.at({x, under}), view.at({x, left.centre_mm.y - std::min(left_half.y, right_half.y)}),
             0.1, kProposalRule);
    page.texts.push_back({cm(to - from) + " apart", (a + b) / 2.0 + glm::dvec2(0, 4), 2.4, false,
                          Align::centre, kProposalInk});
}

void draw_wall(Page& page, const Layout& layout, const glm::dvec2& at_mm, const glm::dvec2& box_mm) {
    double left = 0, right = 0, top = 0;
    std::vector<Hung> panels;
    for (const HungPanel& panel : hung_panels(layout)) {
        const glm::dvec2 half = outer_half_mm(panel.layout->panel, layout.panel.lean_deg);
        left = std::min(left, panel.centre_mm.x - half.x);
        right = std::max(right, panel.centre_mm.x + half.x);
        top = std::max(top, panel.centre_mm.y + half.y);
        panels.emplace_back(panel, half);
    }
    constexpr double kAside_mm = 420, kAbove_mm = 260;
    left -= kAside_mm, right += kAside_mm, top += kAbove_mm;
    const double scale = std::min(box_mm.x / (right - left), box_mm.y / top);
    const WallView view{at_mm + glm::dvec2(-left * scale, top * scale), scale};
    line(page, view.at({left, 0}), view.at({right, 0}), kThick_mm);
    page.texts.push_back(
        {"floor", view.at({left, 0}) + glm::dvec2(0, 4), 2.3, false, Align::left, kProposalGrey});
    for (const auto& [panel, half] : panels) {
        const glm::dvec2 c(panel.centre_mm);
        const glm::dvec2 inner(panel.layout->panel.width_mm / 2, panel.layout->panel.height_mm / 2);
        for (const glm::dvec2& h : {half, inner}) {
            const glm::dvec2 low = view.at(c - h), high = view.at(c + h);
            page.lines.push_back(
                {{low, {high.x, low.y}, high, {low.x, high.y}, low}, kThin_mm, kProposalInk});
        }
        measure(page, view.at({c.x - half.x, c.y + half.y + 70}), view.at({c.x + half.x, c.y + half.y + 70}),
                cm(2 * half.x));
    }
    if (panels.size() > 1) measure_gap(page, view, panels);
    const auto& [own, half] = panels.front();
    const double side = left + kAside_mm - 80;
    const glm::dvec2 c(own.centre_mm);
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

double write_panel(Page& page, const ProposalPanel& panel, double x, double wide, double y) {
    const PanelFacts& f = panel.facts;
    page.texts.push_back({f.name, {x, y}, 3.4, true, Align::left, kProposalInk});
    y += 5.6;
    page.texts.push_back({"H × W × D", {x, y}, 2.4, false, Align::left, kProposalGrey});
    y = write_lines(page, size_text({f.size_mm.x, f.size_mm.y, f.size_mm.z}, f.units), {x, y + 4.2}, wide,
                    2.6, kProposalInk) +
        1.5;
    for (const WeightPart& part : f.weight.parts)
        y = row(page, x, wide, y, part.name,
                f.units == Units::inches ? fmt::format("{:.2f} lb", part.kg / kPound_kg)
                                         : fmt::format("{:.2f} kg", part.kg));
    line(page, {x, y - 3.4}, {x + wide, y - 3.4}, kThin_mm, kProposalRule);
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
    for (const ProposalPanel& panel : proposal.panels) y = write_panel(p.page, panel, x, kColumn_mm, y);
    write_lines(
        p.page,
        "Weights follow from the drawing. The finished panel is weighed, and that number is on its label. "
        "Wall and fixings are for local codes and licensed practice to judge.",
        {kProposalMargin_mm, kProposalFoot_mm - 14}, wide, 2.4, kProposalGrey);
    return p;
}

}  // namespace rakelight
