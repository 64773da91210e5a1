// A layout's laying and rooms, kept in memory from one save to the next for as long as they hold: other lamps
// keep all geometry, other tints all meshes, a changed field has the others laid as they were.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "output/preview/lit_rooms.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"

namespace rakelight {

/// What of a layout before still holds of another.
enum class Holds { nothing, some_fields, meshes, all_but_lights };

class KeptRooms {
  public:
    /// The layout is now this one. Returns what has been kept. \throws LayoutError as `lay`; then all is as
    /// before.
    Holds take(Layout layout);

    /// The layout taken last, and what is laid of it. Precondition: one was taken.
    const Layout& layout() const { return *layout_; }
    const Laying& laying() const { return laying_; }
    /// Of the fields, those that the last laying took over as they were.
    int fields_kept() const { return fields_.taken; }

    /// The room in a light, empty = the layout's own; `finest_mm` as of LitRooms, of which a coarse room (not
    /// 0) and the full one are kept side by side. Stays good until the next call or layout. \throws as
    /// LitRooms::in.
    LitRooms::Room in(const std::string& light, double finest_mm);

  private:
    // A world, what it is built of, and what of that has changed since.
    struct Stand {
        double finest_mm;
        Layout lit;
        int geometry;
        int colours;
        World world;
        std::optional<Bvh> bvh;
    };

    bool recolour(Stand& stand, Layout& lit) const;
    void build(std::unique_ptr<Stand>& stand, Layout lit, double finest_mm) const;

    std::optional<Layout> layout_;
    std::string geometry_key_, colour_key_;
    std::uint64_t files_ = 0;         // as of `other_files`
    int geometry_ = 0, colours_ = 0;  // grow with each change
    Laying laying_;
    LaidFields fields_;
    std::optional<Laying> beside_;
    std::unique_ptr<Stand> coarse_, full_;
};

}  // namespace rakelight
