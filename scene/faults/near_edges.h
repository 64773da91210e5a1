// A bucket grid over the edges of all pieces: what stands opposite a place.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "scene/geometry/polygon.h"
#include "scene/model/piece.h"

namespace rakelight {

class NearEdges {
  public:
    /// `reach_mm` > 0: no question looks farther. Holds no reference to the pieces.
    NearEdges(std::span<const Piece> pieces, double reach_mm);

    /// The first piece but `self` on the way from `from` along the unit vector `along`, within `reach_mm`.
    std::optional<std::uint32_t> ahead(const glm::dvec2& from, const glm::dvec2& along, double reach_mm,
                                       std::uint32_t self) const;
    struct Near {
        std::uint32_t piece = 0;
        double distance_mm = 0;
    };
    /// The piece nearest to `p`, if one is within reach.
    std::optional<Near> nearest(const glm::dvec2& p) const;

  private:
    struct Side {
        glm::dvec2 a, b;
        std::uint32_t piece;
    };
    template <class Visit>
    void each(const glm::dvec2& p, Visit&& visit) const;

    double reach_mm_;
    glm::dvec2 low_{0};
    int columns_ = 0, rows_ = 0;
    std::vector<std::vector<Side>> buckets_;
};

}  // namespace rakelight
