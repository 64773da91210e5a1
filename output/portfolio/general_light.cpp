#include "output/portfolio/general_light.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"
#include "scene/light/lamp_forms.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

constexpr double kSquareMm = 1e-6;  // mm2 to m2

double seen_reflectance(const Material& m) {
    const double inner = mean(m.reflectance);
    return m.index > 1 ? through_interface(inner, 0.04, diffuse_reflectance_inside(m.index)) : inner;
}

// Lux anywhere in the room of a lumen that its surfaces scatter.
double lux_of_lumen(const Layout& layout) {
    const Room& room = layout.room;
    const double side = room.depth_mm * room.height_mm, front = room.width_mm * room.height_mm,
                 level = room.width_mm * room.depth_mm;
    const std::pair<std::uint32_t, double> faces[]{{room.left_wall, side},      {room.right_wall, side},
                                                   {room.opposite_wall, front}, {room.panel_wall, front},
                                                   {room.floor, level},         {room.ceiling, level}};
    double area = 0, reflecting = 0;
    for (const auto& [stock, mm2] : faces) {
        area += mm2;
        reflecting += mm2 * seen_reflectance(layout.stock[stock]);
    }
    const double rho = std::min(reflecting / area, 0.95);
    return rho / (area * kSquareMm * (1 - rho));
}

// On the wall, at the height of the work's middle, a step to each side of it.
std::array<glm::dvec3, 2> places_on_wall(const Layout& layout) {
    const HungWork work = all_hung(layout);
    const double aside = std::min(work.outer_half_mm.x + 700, layout.room.width_mm / 2);
    return {glm::dvec3(work.centre_mm.x - aside, layout.panel.centre_height_mm, 0),
            glm::dvec3(work.centre_mm.x + aside, layout.panel.centre_height_mm, 0)};
}

// Straight from a lamp, for each candela: a matte panel of its size, or a small lamp that shines all round.
double direct_lux_of_candela(const Lamp& lamp, const glm::dvec3& at_mm) {
    constexpr int kParts = 8;
    const bool flat = lamp.form == LampForm::panel;
    const glm::dvec3 axis = glm::normalize(lamp.aim_mm - lamp.at_mm);
    double lux = 0;
    for (int i = 0; i < kParts * kParts; ++i) {
        // Panels on the ceiling lie along the walls.
        const glm::dvec3 within((i % kParts + 0.5) / kParts - 0.5, 0, (i / kParts + 0.5) / kParts - 0.5);
        const glm::dvec3 part =
            lamp.at_mm + (flat ? within * glm::dvec3(lamp.width_mm, 0, lamp.height_mm) : glm::dvec3(0));
        const glm::dvec3 way = part - at_mm;
        const double metres = glm::length(way) / 1000;
        const glm::dvec3 to = glm::normalize(way);
        const double leaving = flat ? std::max(0.0, -glm::dot(to, axis)) : 1;
        lux += leaving * std::max(0.0, to.z) / (metres * metres) / (kParts * kParts);
    }
    return lux;
}

// Of a lamp by its beam: I (1 - cos(half)) 2 pi within half its candela and about as much again outside.
double lumen_of(const Lamp& lamp) {
    if (lamp.lumen > 0) return lamp.lumen;
    if (lamp.form == LampForm::panel) return std::numbers::pi * lamp.candela;
    if (!rule_of(lamp.form).in_can) return 4 * std::numbers::pi * lamp.candela;
    return 2.3 * std::numbers::pi * lamp.candela * (1 - std::cos(glm::radians(lamp.beam_deg / 2)));
}

double candela_of(const Lamp& lamp) {
    if (lamp.candela > 0) return lamp.candela;
    return lamp.lumen / ((lamp.form == LampForm::panel ? 1 : 4) * std::numbers::pi);
}

double direct_lux(const Layout& layout, const Lamp& lamp) {
    double lux = 0;
    for (const glm::dvec3& at : places_on_wall(layout)) lux += direct_lux_of_candela(lamp, at) / 2;
    return lux * candela_of(lamp);
}

}  // namespace

double general_lux(const Layout& layout) {
    double lux = 0;
    for (const Lamp& lamp : layout.on.lamps) {
        lux += lamp.dimming * lumen_of(lamp) * lux_of_lumen(layout);
        if (!rule_of(lamp.form).in_can) lux += lamp.dimming * direct_lux(layout, lamp);
    }
    return lux;
}

Lamp general_lamp(const Layout& layout, double lux, double temperature_k) {
    const Room& room = layout.room;
    Lamp lamp;
    lamp.name = lamp.group = "general light";
    lamp.form = LampForm::panel;
    lamp.at_mm = {0, room.height_mm - 10, 0.5 * room.depth_mm};
    lamp.aim_mm = {lamp.at_mm.x, 0, lamp.at_mm.z};
    lamp.width_mm = std::min(2400.0, room.width_mm / 2);
    lamp.height_mm = std::min(1800.0, room.depth_mm / 3);
    lamp.temperature_k = temperature_k;
    lamp.candela = 1;
    lamp.candela = lux / (direct_lux(layout, lamp) + lumen_of(lamp) * lux_of_lumen(layout));
    return lamp;
}

}  // namespace rakelight
