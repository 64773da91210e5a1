#include "scene/world/material_set.h"

#include <map>
#include <optional>

#include "scene/model/layout.h"
#include "scene/world/surface_cache.h"

namespace rakelight {

namespace {

// The look of `fresh` on an object that stays what it is.
void apply(Object& object, const Object& fresh) {
    object.surface = fresh.surface;
    object.roughened_surface = fresh.roughened_surface;
    object.glassy_surface = fresh.glassy_surface;
    object.grain = fresh.grain;
    object.glassy_threshold = fresh.glassy_threshold;
    object.glassy_patch_mm = fresh.glassy_patch_mm;
    object.marks = fresh.marks;
}

// What fills the joints of `other` that a tint of `layout` fills in its own.
std::optional<std::uint32_t> filling(const Layout& layout, const Layout& other, std::size_t tint) {
    for (std::size_t f = 0; f < layout.fields.size(); ++f)
        if (filling_of(layout.fields[f]) == tint) return filling_of(other.fields[f]);
    return std::nullopt;
}

}  // namespace

MaterialSet make_material_set(const World& world, const Layout& layout, const Laying& laying,
                              const Layout& other) {
    World scratch;
    scratch.interfaces = world.interfaces;
    scratch.marks = world.marks;
    SurfaceCache cache(scratch, other);
    std::map<std::uint32_t, std::uint32_t> kept;  // surfaces of the world that stay
    const auto keep = [&](std::uint32_t surface, int looks = 1) {
        if (surface == kNone) return kNone;
        const auto [it, fresh] =
            kept.try_emplace(surface, static_cast<std::uint32_t>(scratch.surfaces.size()));
        for (int look = 0; fresh && look < looks; ++look)
            add_surface(scratch, world.surfaces[surface + static_cast<std::uint32_t>(look)]);
        return it->second;
    };
    MaterialSet set{world.objects, {}, {}};
    for (Object& object : set.objects) {
        const auto piece = static_cast<std::size_t>(object.piece) - 1;
        const auto tint = static_cast<std::size_t>(object.material) - 1 - layout.stock.size();
        if (object.piece > 0 && piece < laying.pieces.size()) {
            apply(object, piece_object(cache, other, laying.pieces[piece]));
            continue;
        }
        const auto filled = object.piece == 0 ? filling(layout, other, tint) : std::nullopt;
        if (filled) {
            apply(object, cache.filling(*filled, 0));
            continue;
        }
        object.surface = keep(object.surface, object.marks == kNone ? 1 : world.marks[object.marks].looks());
        object.roughened_surface = keep(object.roughened_surface);
        object.glassy_surface = keep(object.glassy_surface);
    }
    set.surfaces = std::move(scratch.surfaces);
    set.marks = std::move(scratch.marks);
    return set;
}

}  // namespace rakelight
