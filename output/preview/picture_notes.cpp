#include "output/preview/picture_notes.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <numbers>

#include "output/preview/deliver.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"

namespace rakelight {

namespace {

double pixel_deg(const Views& views, const Picture& picture) {
    for (const Viewpoint& view : views.viewpoints)
        if (view.name == picture.viewpoint)
            return std::atan(view.view_width_mm / picture.width_px / view_distance_mm(view)) * 180 /
                   std::numbers::pi;
    throw RequestError(
        fmt::format("picture {}: there is no viewpoint called {}", picture.name, picture.viewpoint));
}

// Of a clear sky that is seen through a window; a sun that has set as well.
std::optional<NotedSun> noted_sun(const Lighting& light) {
    if (light.windows.empty() || light.daylight.sky != SkyKind::clear) return {};
    const LightOutside outside = look_outside(light.daylight);
    const glm::dvec3& to = outside.to_sun;
    return NotedSun{outside.altitude_deg, std::atan2(to.x, to.z) * 180 / std::numbers::pi};
}

}  // namespace

std::vector<Xyz> noted_illuminance(std::span<const glm::dvec3> xyz) {
    std::vector<Xyz> noted;
    for (const glm::dvec3& group : xyz) noted.push_back({group.x, group.y, group.z});
    return noted;
}

double card_cd_per_m2(const PictureNotes& notes) {
    std::vector<glm::dvec3> metered;
    for (const Xyz& group : notes.illuminance_xyz) metered.emplace_back(group.x, group.y, group.z);
    return grey_card_cd_per_m2(metered);
}

PictureNotes notes_of(const Layout& layout, const World& world, const Bvh& bvh, const Picture& picture,
                      std::uint64_t scene_hash) {
    PictureNotes notes;
    notes.program = kProgram;
    notes.panel = layout.panel.name;
    notes.layout_file = std::filesystem::path(layout.sources.path).filename().string();
    notes.picture = picture.name;
    if (layout.on.name != kOwnLight) notes.light = layout.on.name;
    notes.scene_hash = scene_hash;
    notes.illuminance_xyz =
        noted_illuminance(panel_illuminance_xyz(world, bvh, lamps_of_picture(world, layout, picture)));
    notes.ev = picture.ev;
    notes.exposure_rule = picture.exposure;
    notes.pixel_deg = pixel_deg(layout.views, picture);
    notes.wanted_error = picture.error;
    notes.most_samples = picture.most_samples;
    notes.sun = noted_sun(layout.on);
    check_exposure(notes);
    return notes;
}

}  // namespace rakelight
