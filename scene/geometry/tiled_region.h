// A region cut into square tiles, for many small looks at a large one: a look then costs what lies near it.
#pragma once

#include <cstdint>
#include <unordered_map>

#include "scene/geometry/region.h"

namespace rakelight {

class TiledRegion {
  public:
    /// `region` must outlive this. Looks up to half of `tile_mm` wide are cheap.
    TiledRegion(const Region& region, double tile_mm) : region_(region), tile_mm_(tile_mm) {}

    /// What of the region lies in a box, to the 1e-4 mm of regions. Tiles are cut as they are asked for: only
    /// one thread may look at a time.
    Region within(const Box& box);

  private:
    const Region& region_;
    double tile_mm_;
    std::unordered_map<std::uint64_t, Region> tiles_;
};

}  // namespace rakelight
