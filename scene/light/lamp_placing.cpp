#include "scene/light/lamp_placing.h"

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"

namespace rakelight {
namespace {

constexpr double kFromVertical_deg = 30;
constexpr double kTallWork_mm = 1200;
constexpr double kTallWorkSetback_mm = 300;
constexpr double kLeastSetback_mm = 300;
constexpr double kClearance_mm = 100;  ///< of lamps from walls, floor and ceiling

}  // namespace

double gallery_setback_mm(double ceiling_mm, double centre_mm, double work_height_mm) {
    const double eye_mm = kStandingEye_mm + centre_mm - kUsualCentre_mm;
    const double setback = (ceiling_mm - eye_mm) * std::tan(glm::radians(kFromVertical_deg));
    return std::max(setback, kLeastSetback_mm) + (work_height_mm > kTallWork_mm ? kTallWorkSetback_mm : 0);
}

glm::dvec3 face_centre_mm(const Layout& layout) {
    return all_hung(layout).centre_mm;
}

double candela_for_lux(const HungWork& work, const glm::dvec3& at_mm, double lux) {
    const glm::dvec3 way = at_mm - work.centre_mm;
    const double metres = glm::length(way) / 1000;
    return lux * metres * metres / (way.z / glm::length(way));
}

Lamp spot_on_work(const HungWork& work, std::string name, const glm::dvec3& at_mm, double lux) {
    Lamp lamp;
    lamp.name = lamp.group = std::move(name);
    lamp.at_mm = at_mm;
    lamp.aim_mm = work.centre_mm;
    const double diagonal = glm::length(work.size_mm);
    const double seen = 2 * std::atan(diagonal / 2 / glm::distance(at_mm, lamp.aim_mm));
    lamp.beam_deg = std::clamp(glm::degrees(seen), 15.0, 60.0);
    lamp.candela = candela_for_lux(work, at_mm, lux);
    return lamp;
}

glm::dvec3 within_room_mm(const Room& room, glm::dvec3 at_mm) {
    const double aside = std::max(room.width_mm / 2 - kClearance_mm, 0.0);
    const auto between = [](double value, double size) {
        return std::clamp(value, std::min(kClearance_mm, size / 2), std::max(size - kClearance_mm, size / 2));
    };
    return {std::clamp(at_mm.x, -aside, aside), between(at_mm.y, room.height_mm),
            between(at_mm.z, room.depth_mm)};
}

}  // namespace rakelight
