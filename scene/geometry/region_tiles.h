// A region cut into tiles that overlap: what lies near a point, without asking the whole.
#pragma once

#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

/// Copies what it needs. Any number of threads may ask it at once.
class RegionTiles {
  public:
    /// `reach_mm` > 0: how far from a point is mostly asked.
    RegionTiles(const Region& region, double reach_mm);

    /// The region, but for what lies farther than `far_mm` from `p`, of which as much may be missing as saves
    /// time: nothing of it where `far_mm` is beyond the reach.
    const Region& near(const glm::dvec2& p, double far_mm) const;

  private:
    Region whole_;
    double reach_mm_, tile_mm_;
    glm::dvec2 low_;
    int columns_, rows_;
    std::vector<Region> tiles_;
};

}  // namespace rakelight
