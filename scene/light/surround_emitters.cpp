#include "scene/light/surround_emitters.h"

#include <fmt/format.h>

#include <cmath>

#include "scene/model/layout.h"
#include "scene/room/panel_frame.h"

namespace rakelight {

namespace {

SurroundLight turned_light(const AllRoundLight& said) {
    SurroundLight light;
    light.all = said.picture;
    light.turn_cosine = static_cast<float>(std::cos(glm::radians(said.turned_deg)));
    light.turn_sine = static_cast<float>(std::sin(glm::radians(said.turned_deg)));
    light.primaries = primary_weights();
    return light;
}

// Light on the panel, nothing in between, in units of the picture.
double on_panel(const Layout& layout) {
    const glm::vec3 normal(panel_frame(layout.panel).axes[2]);
    return layout.on.all_round->picture->plane_light(
        glm::dvec3(turned_light(*layout.on.all_round).to_picture(normal)));
}

std::array<float, 3> mean_rgb(const SurroundPatch& patch) {
    const glm::vec3 rgb(patch.rgb / patch.solid_angle_sr);
    return {rgb.x, rgb.y, rgb.z};
}

std::string group_of(const AllRoundLight& said, const SurroundPatch& patch, const glm::vec3& direction) {
    const std::string& group = said.group.empty() ? said.name : said.group;
    if (!patch.spot || !said.spots_apart) return group;
    return fmt::format("{}: {}", said.name, direction_in_words(glm::dvec3(direction)));
}

}  // namespace

double surround_unit_cd_per_m2(const Layout& layout) {
    const AllRoundLight& said = layout.on.all_round.value();
    if (!said.lux) return said.unit_cd_per_m2;
    const double of_picture = on_panel(layout);
    return of_picture > 0 ? *said.lux / of_picture : 0;
}

double surround_lux(const Layout& layout) {
    return layout.on.all_round.value().dimming * surround_unit_cd_per_m2(layout) * on_panel(layout);
}

std::string direction_in_words(const glm::dvec3& direction) {
    const double aside_deg = glm::degrees(std::atan2(direction.x, direction.z));
    const double up_deg = glm::degrees(std::asin(std::clamp(direction.y, -1.0, 1.0)));
    const double aside = std::round(std::abs(aside_deg)), up = std::round(std::abs(up_deg));
    const std::string way = aside < 1
                                ? "straight out"
                                : fmt::format("{:.0f} degrees {}", aside, aside_deg < 0 ? "left" : "right");
    return way + (up < 1 ? ", level" : fmt::format(", {:.0f} {}", up, up_deg < 0 ? "down" : "up"));
}

std::vector<WindowLight> surround_lights(const Layout& layout) {
    std::vector<WindowLight> lights;
    if (!layout.on.all_round) return lights;
    const AllRoundLight& said = *layout.on.all_round;
    SurroundLight shared = turned_light(said);
    shared.unit_cd_per_m2 = static_cast<float>(surround_unit_cd_per_m2(layout) * said.dimming);
    const auto light = std::make_shared<const SurroundLight>(shared);
    const std::span<const SurroundPatch> patches = said.picture->patches();
    for (std::uint32_t i = 0; i < patches.size(); ++i) {
        const SurroundPatch& patch = patches[i];
        if (!(patch.flux > 0)) continue;
        Emitter e;
        e.shape = SurroundPart{light, i};
        e.surround = light;
        e.axis = -light->to_room(glm::vec3(patch.direction));
        e.centre_mm = -kSurroundFar_mm * e.axis;
        e.peak_cd_per_m2 = static_cast<float>(patch.flux / patch.solid_angle_sr) * light->unit_cd_per_m2;
        e.weights = weights_of_rgb(light->primaries, mean_rgb(patch));
        lights.push_back({said.name, group_of(said, patch, -e.axis), e});
    }
    return lights;
}

Spectrum surround_spectrum(const SurroundPart& part) {
    const std::array<float, 3> rgb = mean_rgb(part.of_picture());
    return light_of_rgb({double(rgb[0]), double(rgb[1]), double(rgb[2])});
}

}  // namespace rakelight
