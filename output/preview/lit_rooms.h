// The room of a layout in each of its lights, ready for rays.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "renderer/bvh.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/world/world.h"

namespace rakelight {

/// Keeps one world, and its triangles sorted for rays, for as long as only lights change in it: one is built
/// anew only for a light that puts other glazing bars into the room. The panel beside is laid once.
class LitRooms {
  public:
    /// `layout` and `laying` must outlive the rooms. `finest_mm`: as `build_world`; more than 0: for a quick
    /// look, with a tree made quickly too.
    LitRooms(const Layout& layout, const Laying& laying, double finest_mm = 0);

    struct Room {
        const Layout& layout;
        const World& world;
        const Bvh& bvh;
    };

    /// The room in a light; empty = the layout's own. Stays good until the next call. \throws LayoutError as
    /// `with_light`; std::runtime_error as `Bvh`.
    Room in(const std::string& light);

    /// Places in `lights` that one world serves, world by world in the order of their first light: whoever
    /// asks in this order has each world built once. \throws LayoutError as `with_light`.
    std::vector<std::vector<std::size_t>> sharing_a_world(std::span<const std::string> lights) const;

    int worlds_built() const { return worlds_built_; }

  private:
    struct Stand {
        World world;
        Bvh bvh;
        Stand(World w, bool quickly) : world(std::move(w)), bvh(world, quickly) {}
    };

    Layout lit_by(const std::string& light) const;

    const Layout& layout_;
    const Laying& laying_;
    double finest_mm_;
    std::optional<Laying> beside_;
    std::string light_;
    std::optional<Layout> lit_;
    std::unique_ptr<Stand> stand_;
    int worlds_built_ = 0;
};

}  // namespace rakelight
