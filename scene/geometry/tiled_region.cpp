#include "scene/geometry/tiled_region.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

Region rectangle(const glm::dvec2& low, const glm::dvec2& high) {
    return {{{low, {high.x, low.y}, high, {low.x, high.y}}}};
}

}  // namespace

Region TiledRegion::within(const Box& box) {
    const Region square = rectangle(box.low, box.high);
    const double margin = tile_mm_ / 2;  // tiles overlap: a look goes to the one that its middle lies in
    const glm::dvec2 middle = (box.low + box.high) / 2.0;
    const glm::dvec2 cell = glm::floor(middle / tile_mm_);
    const glm::dvec2 low = cell * tile_mm_ - margin, high = (cell + 1.0) * tile_mm_ + margin;
    if (box.low.x < low.x || box.low.y < low.y || box.high.x > high.x || box.high.y > high.y)
        return intersect(square, region_);
    const auto key = [](double c) {
        return static_cast<std::uint64_t>(static_cast<std::uint32_t>(static_cast<std::int32_t>(c)));
    };
    const auto [tile, made] = tiles_.try_emplace(key(cell.x) << 32 | key(cell.y));
    if (made) tile->second = intersect(rectangle(low, high), region_);
    return intersect(square, tile->second);
}

}  // namespace rakelight
