#include "output/portfolio/portfolio.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/room/hung_panel.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr double kMm_per_inch = 25.4;

/// Set-ups that show the room at other hours.
const std::map<Shot, std::string> kUsualLight{{Shot::day, "north light"},
                                              {Shot::dusk, std::string(kUsualDusk)}};

bool fits(const Layout& layout, const std::string& light) {
    try {
        with_light(layout, light);
        return true;
    } catch (const LayoutError&) {
        return false;
    }
}

// The proudest stone, then where figures are: places of the first fields' guides.
std::vector<CloseUp> usual_details(const Layout& layout) {
    std::vector<CloseUp> places;
    const std::vector<PanelSpan> spans = panel_spans(layout.panel);
    const double width = std::clamp(0.25 * layout.panel.width_mm, 60.0, 160.0);
    const auto add = [&](const glm::dvec2& at) {
        const PanelSpan& span = spans[span_at(spans, at.x)];
        const glm::dvec2 low(span.left_mm + width / 2, width / 3);
        const glm::dvec2 most =
            glm::max(glm::dvec2(span.right_mm - width / 2, layout.panel.height_mm - width / 3), low);
        const glm::dvec2 kept = glm::clamp(at, low, most);
        for (const CloseUp& other : places)
            if (glm::distance(other.at_mm, kept) < width) return;
        if (places.size() < 3) places.push_back({kept, width});
    };
    const auto proudest =
        std::max_element(layout.stones.begin(), layout.stones.end(),
                         [](const PlacedStone& a, const PlacedStone& b) { return a.proud_mm < b.proud_mm; });
    if (proudest != layout.stones.end()) add(proudest->at_mm);
    for (const Field& field : layout.fields)
        if (!field.guides.empty() && !field.guides[0].points_mm.empty())
            add(field.guides[0].points_mm[field.guides[0].points_mm.size() / 2]);
    add({layout.panel.width_mm / 2, layout.panel.height_mm / 2});
    return places;
}

// A figure to the right of the work and a step off the wall, turned to it; a bench before the work. What does
// not fit is left out.
std::vector<StandInPlace> usual_scale(const Layout& layout) {
    double right = 0;
    for (const HungPanel& panel : hung_panels(layout))
        right = std::max(right, panel.centre_mm.x + outer_half_mm(panel.layout->panel, 0).x);
    for (const double aside : {620.0, 420.0, 260.0}) {
        const StandInPlace figure{StandIn::figure, {right + aside, 900}, 28, 0};
        if (why_no_stand_in(figure, layout).empty()) return {figure};
    }
    return {};
}

}  // namespace

Portfolio usual_portfolio(const Layout& layout) {
    Portfolio p;
    for (std::size_t i = 0; i < kShotWords.size(); ++i) {
        const auto shot = static_cast<Shot>(i);
        if (shot == Shot::both && !layout.beside) continue;
        if (const auto light = kUsualLight.find(shot); light != kUsualLight.end()) {
            if (!fits(layout, light->second)) continue;
            p.light.insert(*light);
        }
        p.show.push_back(shot);
    }
    p.details = usual_details(layout);
    p.scale_figures = usual_scale(layout);
    p.walk.to_mm = std::min(p.walk.to_mm, layout.room.width_mm / 2 - 200);
    p.walk.from_mm = -p.walk.to_mm;
    p.caption.title = layout.panel.name;
    return p;
}

std::string why_no_shot(Shot shot, const Portfolio& portfolio, const Layout& layout) {
    const std::string& word = kShotWords[static_cast<std::size_t>(shot)];
    if (shot == Shot::both && !layout.beside)
        return fmt::format("found \"{}\" without a panel beside, expected the key beside in the layout",
                           word);
    const auto usual = kUsualLight.find(shot);
    if (usual != kUsualLight.end() && !portfolio.light.contains(shot))
        return fmt::format(
            "found \"{}\" in a room where the set-up {} does not fit, expected another one under light", word,
            usual->second);
    return "";
}

int print_px(double mm, int dpi) {
    return std::max(1, static_cast<int>(std::lround(mm / kMm_per_inch * dpi)));
}

}  // namespace rakelight
