// A set of materials for a world whose pieces stay where they are: what another choice of grout, bed or tints
// makes of its objects.
#pragma once

#include <vector>

#include "scene/world/world.h"

namespace rakelight {

struct Layout;

/// Things in the order of a world, and the surfaces they point to.
struct MaterialSet {
    std::vector<Object> objects;
    std::vector<Surface> surfaces;
    std::vector<Marks> marks;  ///< those of the world, then what is new
};

/// `world`: built of `layout` and `laying`, without a panel beside. `other`: a layout whose pieces, stones,
/// frame and room are those of `layout`, and whose fields are filled alike where those are (geometry_key.h);
/// bed and grout may be other ones. Grain, seeds and numbers stay those of the world, so that nothing else
/// changes. The surfaces refer to the world's InterfaceTables.
MaterialSet make_material_set(const World& world, const Layout& layout, const Laying& laying,
                              const Layout& other);

}  // namespace rakelight
