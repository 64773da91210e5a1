#include "output/take_off/reckoning/piece_buckets.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

PieceBuckets::PieceBuckets(const Laying& laying) {
    for (const Piece& piece : laying.pieces) rings_.push_back(&piece.outline_mm);
    for (const SetStone& stone : laying.stones) rings_.push_back(&stone.footprint_mm);
    std::vector<Box> boxes;
    for (const Ring* ring : rings_) {
        boxes.push_back(bounds(*ring));
        all_.add(boxes.back().low);
        all_.add(boxes.back().high);
    }
    if (rings_.empty()) return;
    const glm::dvec2 size = all_.size();
    side_mm_ = std::max(10.0, std::max(size.x, size.y) / 2000);
    columns_ = static_cast<std::size_t>(size.x / side_mm_) + 1;
    rows_ = static_cast<std::size_t>(size.y / side_mm_) + 1;
    buckets_.resize(columns_ * rows_);
    for (std::uint32_t i = 0; i < rings_.size(); ++i) {
        const std::size_t first = bucket(boxes[i].low), last = bucket(boxes[i].high);
        for (std::size_t y = first / columns_; y <= last / columns_; ++y)
            for (std::size_t x = first % columns_; x <= last % columns_; ++x)
                buckets_[y * columns_ + x].push_back(i);
    }
}

std::size_t PieceBuckets::bucket(const glm::dvec2& p) const {
    const auto along = [&](double mm, std::size_t count) {
        return std::min(static_cast<std::size_t>(std::max(mm, 0.0) / side_mm_), count - 1);
    };
    return along(p.y - all_.low.y, rows_) * columns_ + along(p.x - all_.low.x, columns_);
}

bool PieceBuckets::covered(const glm::dvec2& p) const {
    if (buckets_.empty()) return false;
    const auto& here = buckets_[bucket(p)];
    return std::any_of(here.begin(), here.end(), [&](std::uint32_t i) { return contains(*rings_[i], p); });
}

}  // namespace rakelight
