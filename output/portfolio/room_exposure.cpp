#include "output/portfolio/room_exposure.h"

#include <algorithm>
#include <cmath>

#include "renderer/light_meter.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

WallLight wall_light(const World& world, const Bvh& bvh, const Layout& layout) {
    constexpr double kHigh_mm = 1500, kOff_mm = 40;
    const HungWork work = all_hung(layout);
    double logs = 0, most = 0;
    int count = 0;
    for (const double aside : {450.0, 900.0})
        for (const double side : {-1.0, 1.0}) {
            const double x = work.centre_mm.x + side * (work.outer_half_mm.x + aside);
            if (std::abs(x) > layout.room.width_mm / 2 - 50) continue;
            const glm::dvec3 at(x, std::min(kHigh_mm, layout.room.height_mm / 2), kOff_mm);
            double lux = 0;
            for (const glm::dvec3& xyz : illuminance_xyz(world, bvh, world.emitters,
                                                         glm::vec3(at - world.origin_mm), {0, 0, 1}, 2048))
                lux += xyz.y;
            most = std::max(most, lux);
            logs += std::log(std::max(lux, 1e-3));
            ++count;
        }
    return count > 0 ? WallLight{std::exp(logs / count), most} : WallLight{};
}

double exposed_lux(const WallLight& wall, double work_lux) {
    constexpr double kTowardsWork = 0.25;
    const double between = wall.mean_lux * std::pow(work_lux / wall.mean_lux, kTowardsWork);
    return std::max({between, work_lux / kMostOver, wall.most_lux / kMostOverWall});
}

}  // namespace rakelight
