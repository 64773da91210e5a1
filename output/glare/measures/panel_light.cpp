#include "output/glare/measures/panel_light.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "output/glare/measures/expected_glare.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr double kDarkShare = 0.1;

// The lights of the layout and those that a picture asks for.
std::vector<std::string> lights_shown(const Layout& layout) {
    std::vector<std::string> names = layout.lights;
    for (const Picture& picture : layout.views.pictures)
        if (!picture.light.empty() && std::find(names.begin(), names.end(), picture.light) == names.end())
            names.push_back(picture.light);
    return names;
}

}  // namespace

double direct_lux(const Layout& lit, const Panel& panel, const PanelFrame& hang) {
    const MeterGrid meter = meter_grid(panel);
    double sum = 0;
    const auto add = [&](const Emitter& lamp) {
        const std::vector<double> lux = lux_of(lamp, hang, meter);
        sum += std::accumulate(lux.begin(), lux.end(), 0.0);
    };
    for (const Lamp& lamp : lit.on.lamps) add(make_emitter(lamp, glm::dvec3(0), 0));
    for (const WindowLight& window : window_lights(lit, glm::dvec3(0))) add(window.emitter);
    return sum / static_cast<double>(meter.at_mm.size());
}

std::vector<std::string> panels_left_dark(const Layout& layout) {
    const std::vector<HungPanel> hung = hung_panels(layout);
    if (hung.size() < 2) return {};
    std::vector<std::string> said;
    for (const std::string& light : lights_shown(layout)) {
        const Layout lit = with_light(layout, light);
        const double own = direct_lux(lit, layout.panel, hung[0]);
        const double other = direct_lux(lit, hung[1].layout->panel, hung[1]);
        if (std::min(own, other) >= kDarkShare * std::max(own, other)) continue;
        const bool own_dark = own < other;
        said.push_back(to_string(
            {layout.beside->place, "beside",
             fmt::format("under {} {} gets {:.2g} lx directly where {} gets {:.2g} lx; light by name and "
                         "`lamps: lit` here take both panels",
                         light, own_dark ? "this panel" : "the panel beside", std::min(own, other),
                         own_dark ? "the one beside" : "this one", std::max(own, other))}));
    }
    return said;
}

}  // namespace rakelight
