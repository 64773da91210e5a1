// Quick answers to "how far is this point from the boundary of the region?" for thousands of points: edges
// are kept in the square buckets that they pass through.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

class EdgeIndex {
  public:
    /// `reach_mm` > 0: distances beyond it need not be told apart.
    EdgeIndex(const Region& region, double reach_mm);

    /// Distance to the nearest edge, but `reach_mm` when that is farther off.
    double distance_mm(const glm::dvec2& p) const;
    /// As above, negative outside the region.
    double inside_mm(const glm::dvec2& p) const;
    bool contains(const glm::dvec2& p) const;

  private:
    void find_middles();

    double reach_mm_;
    glm::dvec2 low_{0};
    int columns_ = 0;
    int rows_ = 0;
    std::vector<Edge> edges_;
    std::vector<std::vector<std::uint32_t>> buckets_;
    std::vector<char> inside_;  // the middle of each bucket
};

}  // namespace rakelight
