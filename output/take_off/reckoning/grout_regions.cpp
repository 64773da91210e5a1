#include "output/take_off/reckoning/grout_regions.h"

#include "scene/model/half_joint.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kHair_mm2 = 0.01;

bool near(const Box& a, const Box& b, double by_mm) {
    return a.low.x - by_mm < b.high.x && b.low.x < a.high.x + by_mm && a.low.y - by_mm < b.high.y &&
           b.low.y < a.high.y + by_mm;
}

}  // namespace

std::vector<Region> grounds_on_panel(const Layout& layout, const std::vector<Ring>& footprints) {
    std::vector<Region> ground = plan_regions(layout, footprints);
    const Region panel = panel_region(layout.panel);
    for (Region& g : ground) g = intersect(g, panel);
    return ground;
}

std::vector<Region> grout_regions(const Layout& layout, const std::vector<Region>& ground,
                                  const std::vector<Ring>& footprints) {
    const std::size_t count = ground.size();
    std::vector<Box> boxes;
    for (const Region& g : ground) boxes.push_back(bounds(g));
    std::vector<Region> own(count);
    Region taken;
    for (std::size_t f = 0; f < count; ++f) {
        own[f] = ground[f];
        for (std::size_t later = f + 1; later < count; ++later) {
            const double half_mm = half_joint_mm(layout.fields[later].joint_mm);
            if (half_mm <= 0 || !near(boxes[f], boxes[later], half_mm)) continue;
            own[f] = unite(own[f], intersect(grow(ground[f], half_mm, Corner::round), ground[later]));
        }
        own[f] = subtract(own[f], taken);
        taken = unite(taken, own[f]);
    }
    Region left = subtract(panel_region(layout.panel), taken);
    for (const Ring& stone : footprints) left = subtract(left, region_of(stone));
    for (double reach_mm = 2; area_mm2(left) > kHair_mm2 && reach_mm < 1e4; reach_mm *= 2)
        for (std::size_t f = 0; f < count && !left.empty(); ++f) {
            const Region part = intersect(left, grow(ground[f], reach_mm, Corner::round));
            if (part.empty()) continue;
            own[f] = unite(own[f], part);
            left = subtract(left, part);
        }
    return own;
}

}  // namespace rakelight
