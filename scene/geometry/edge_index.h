// A bucket grid over the edges of a region: quick answers to "how far is this point from the boundary?" for
// thousands of points. An edge is kept in all buckets within reach of it, so that a question looks into one.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

/// Copies the edges that it needs. Any number of threads may ask it at once. Of an empty region everything is
/// outside and out of reach.
class EdgeIndex {
  public:
    /// `reach_mm` > 0: distances beyond it need not be told apart.
    EdgeIndex(const Region& region, double reach_mm);

    /// Distance to the nearest edge, but `reach_mm` when that is farther off.
    double distance_mm(const glm::dvec2& p) const;
    /// As above, negative outside the region.
    double inside_mm(const glm::dvec2& p) const;
    /// Whether the region holds `p`; on its boundary either may be said.
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
