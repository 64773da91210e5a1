#include "scene/geometry/region_tiles.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace rakelight {

RegionTiles::RegionTiles(const Region& region, double reach_mm)
    : whole_(region), reach_mm_(reach_mm), tile_mm_(2 * reach_mm) {
    const Box box = bounds(region);
    low_ = box.low;
    const auto count = [&](double length_mm) {
        return region.empty() ? 0 : std::max(1, static_cast<int>(std::ceil(length_mm / tile_mm_)));
    };
    columns_ = count(box.size().x);
    rows_ = count(box.size().y);
    tiles_.resize(static_cast<std::size_t>(columns_ * rows_));
    const auto cut = [&](const Region& from, const glm::dvec2& low, const glm::dvec2& high) {
        const glm::dvec2 a = low - reach_mm, b = high + reach_mm;
        return intersect(from, {{{a, {b.x, a.y}, b, {a.x, b.y}}}});
    };
    tbb::parallel_for(0, rows_, [&](int y) {
        const double at = low_.y + y * tile_mm_;
        const Region row = cut(region, {box.low.x, at}, {box.high.x, at + tile_mm_});
        for (int x = 0; x < columns_; ++x) {
            const glm::dvec2 low(low_.x + x * tile_mm_, at);
            tiles_[static_cast<std::size_t>(y * columns_ + x)] = cut(row, low, low + tile_mm_);
        }
    });
}

const Region& RegionTiles::near(const glm::dvec2& p, double far_mm) const {
    if (far_mm > reach_mm_ || tiles_.empty()) return whole_;
    const glm::ivec2 tile = glm::clamp(glm::ivec2(glm::floor((p - low_) / tile_mm_)), glm::ivec2(0),
                                       glm::ivec2(columns_ - 1, rows_ - 1));
    return tiles_[static_cast<std::size_t>(tile.y * columns_ + tile.x)];
}

}  // namespace rakelight
