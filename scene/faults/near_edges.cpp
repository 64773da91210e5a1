#include "scene/faults/near_edges.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

NearEdges::NearEdges(std::span<const Piece> pieces, double reach_mm) : reach_mm_(reach_mm) {
    Box box;
    for (const Piece& piece : pieces)
        for (const auto& p : piece.outline_mm) box.add(p);
    if (pieces.empty()) return;
    low_ = box.low - reach_mm;
    const glm::ivec2 size(glm::ceil((box.size() + 3 * reach_mm) / reach_mm));
    columns_ = size.x;
    rows_ = size.y;
    buckets_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    for (std::uint32_t i = 0; i < pieces.size(); ++i)
        for (const auto& [a, b] : edges(pieces[i].outline_mm)) {
            const glm::ivec2 first(glm::floor((glm::min(a, b) - low_) / reach_mm_));
            const glm::ivec2 last(glm::floor((glm::max(a, b) - low_) / reach_mm_));
            for (int y = first.y; y <= last.y; ++y)
                for (int x = first.x; x <= last.x; ++x)
                    buckets_[static_cast<std::size_t>(y * columns_ + x)].push_back({a, b, i});
        }
}

template <class Visit>
void NearEdges::each(const glm::dvec2& p, Visit&& visit) const {
    const glm::ivec2 c(glm::floor((p - low_) / reach_mm_));
    for (int y = std::max(c.y - 1, 0); y <= std::min(c.y + 1, rows_ - 1); ++y)
        for (int x = std::max(c.x - 1, 0); x <= std::min(c.x + 1, columns_ - 1); ++x)
            for (const Side& side : buckets_[static_cast<std::size_t>(y * columns_ + x)]) visit(side);
}

std::optional<std::uint32_t> NearEdges::ahead(const glm::dvec2& from, const glm::dvec2& along,
                                              double reach_mm, std::uint32_t self) const {
    std::optional<std::uint32_t> met;
    double least = std::min(reach_mm, reach_mm_);
    each(from, [&](const Side& side) {
        if (side.piece == self) return;
        const double da = cross(along, side.a - from), db = cross(along, side.b - from);
        if ((da > 0) == (db > 0)) return;
        const double s = glm::dot(glm::mix(side.a, side.b, da / (da - db)) - from, along);
        if (s < 0 || s >= least) return;
        least = s;
        met = side.piece;
    });
    return met;
}

std::optional<NearEdges::Near> NearEdges::nearest(const glm::dvec2& p) const {
    Near best{0, reach_mm_};
    bool found = false;
    each(p, [&](const Side& side) {
        const double d = distance_mm(p, side.a, side.b);
        if (d >= best.distance_mm) return;
        best = {side.piece, d};
        found = true;
    });
    return found ? std::optional(best) : std::nullopt;
}

}  // namespace rakelight
