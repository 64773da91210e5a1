#include "scene/room/defaults.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/constants.hpp>

#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"
#include "scene/room/hung_panel.h"
#include "scene/room/panel_frame.h"

namespace rakelight {
namespace {

constexpr double kStandingEye_mm = 1600;
constexpr double kLampFromVertical_deg = 30;
constexpr double kLampBelowCeiling_mm = 100;
constexpr double kTallWork_mm = 1200;  ///< from here on lamps stand further off
constexpr double kTallWorkSetback_mm = 300;
constexpr double kWorkIlluminance_lux = 300;
constexpr double kViewDiagonals = 1.75;
constexpr double kFromFarWall_mm = 300;
constexpr double kMargin = 1.12;
constexpr int kLongSide_px = 1200;
constexpr double kMostAspect = 3;

}  // namespace

Material usual_material(Kind kind) {
    Material m;
    m.kind = kind;
    switch (kind) {
        case Kind::glass:
            m.index = 1.52f;
            m.density_g_per_cm3 = 2.5f;
            break;
        case Kind::stone:
            m.matte_deg = 25;
            m.thickness_mm = 10;
            m.density_g_per_cm3 = 2.65f;
            break;
        case Kind::slag:
            m.matte_deg = 25;
            m.glassy_share = 0.3f;
            m.thickness_mm = 15;
            m.density_g_per_cm3 = 2.8f;
            break;
        case Kind::cement:
            m.matte_deg = 30;
            m.density_g_per_cm3 = 1.9f;
            break;
        case Kind::epoxy:
            m.index = 1.54f;
            m.roughness = 0.25f;
            m.density_g_per_cm3 = 1.2f;
            break;
        case Kind::timber:
            m.matte_deg = 15;
            m.thickness_mm = 20;
            m.density_g_per_cm3 = 0.6f;
            break;
        case Kind::paint:
            m.matte_deg = 15;
            m.density_g_per_cm3 = 1.4f;
            break;
    }
    return m;
}

glm::dvec3 panel_centre_mm(const Panel& panel) {
    return {0, panel.centre_height_mm, 0};
}

std::vector<Lamp> usual_lamps(const Layout& layout) {
    const Room& room = layout.room;
    const double lamp_height = room.height_mm - std::min(kLampBelowCeiling_mm, room.height_mm / 10);
    double setback = (lamp_height - kStandingEye_mm) * std::tan(glm::radians(kLampFromVertical_deg));
    const HungWork work = all_hung(layout);
    if (work.size_mm.y > kTallWork_mm) setback += kTallWorkSetback_mm;
    setback = std::clamp(setback, std::min(500.0, room.depth_mm / 2), room.depth_mm * 0.9);
    const glm::dvec3 aim = panel_centre_mm(layout.panel) + glm::dvec3(work.centre_mm.x, 0, 0);
    const double aside = std::min(work.size_mm.x / 2 + 300, room.width_mm * 0.45 - std::abs(aim.x));
    const double throw_mm = glm::length(glm::dvec3(aside, lamp_height - aim.y, setback));
    const double seen_deg = glm::degrees(2 * std::atan(glm::length(work.size_mm) / 2 / throw_mm));

    std::vector<Lamp> lamps;
    for (const double side : {-1.0, 1.0}) {
        Lamp lamp;
        lamp.name = side < 0 ? "left spot" : "right spot";
        lamp.group = "spots";
        lamp.at_mm = {aim.x + side * aside, lamp_height, setback};
        lamp.aim_mm = aim;
        lamp.beam_deg = std::clamp(seen_deg, 24.0, 60.0);
        // E = I cos(incidence) / distance^2, and the lamps share the wanted illuminance.
        const double metres = throw_mm / 1000, incidence_cos = setback / throw_mm;
        lamp.candela = kWorkIlluminance_lux / 2 * metres * metres / incidence_cos;
        lamps.push_back(lamp);
    }
    return lamps;
}

Viewpoint usual_viewpoint(const Layout& layout) {
    Viewpoint view;
    view.name = "straight";
    view.look_at_mm = panel_centre_mm(layout.panel);
    const double wanted =
        kViewDiagonals * glm::length(glm::dvec2(layout.panel.width_mm, layout.panel.height_mm));
    const double farthest = std::max(layout.room.depth_mm - kFromFarWall_mm, layout.room.depth_mm / 2);
    view.eye_mm = view.look_at_mm + glm::dvec3(0, 0, std::min(std::max(wanted, 1000.0), farthest));
    return view;
}

Picture usual_picture(const Layout& layout) {
    Picture picture;
    const glm::dvec2 outer = 2.0 * outer_half_mm(layout.panel, 0);
    const double aspect = std::clamp(outer.x / outer.y, 1 / kMostAspect, kMostAspect);
    picture.width_px = static_cast<int>(std::lround(kLongSide_px * std::min(1.0, aspect)));
    picture.height_px = static_cast<int>(std::lround(kLongSide_px * std::min(1.0, 1 / aspect)));
    picture.viewpoint = layout.views.viewpoints.front().name;
    picture.name = picture.viewpoint;
    return picture;
}

void fit_views(Layout& layout) {
    const glm::dvec2 outer = 2.0 * outer_half_mm(layout.panel, 0);
    for (Viewpoint& view : layout.views.viewpoints) {
        if (view.view_width_mm > 0) continue;
        if (view.focal_length_mm > 0) {
            const auto first = std::find_if(layout.views.pictures.begin(), layout.views.pictures.end(),
                                            [&](const Picture& p) { return p.viewpoint == view.name; });
            const bool upright = first != layout.views.pictures.end() && first->height_px > first->width_px;
            view.view_width_mm = lens_view_width_mm(
                view, upright ? static_cast<double>(first->width_px) / first->height_px : 1);
            continue;
        }
        double width = outer.x;
        for (const Picture& picture : layout.views.pictures)
            if (picture.viewpoint == view.name)
                width = std::max(width, outer.y * picture.width_px / picture.height_px);
        view.view_width_mm = kMargin * width;
    }
}

}  // namespace rakelight
