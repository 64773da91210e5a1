#include "scene/world/material_set.h"

#include <algorithm>
#include <map>

#include "scene/model/layout.h"
#include "scene/world/side_wall.h"
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
}

const Material* filling(const Layout& layout, const Layout& other, const std::string& tint) {
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        if (filling_of(layout.fields[f]) != tint) continue;
        const auto m = std::find_if(other.tints.begin(), other.tints.end(), [&](const Material& each) {
            return each.name == filling_of(other.fields[f]);
        });
        return m == other.tints.end() ? nullptr : &*m;
    }
    return nullptr;
}

}  // namespace

MaterialSet make_material_set(const World& world, const Layout& layout, const Laying& laying,
                              const Layout& other) {
    World scratch;
    scratch.interfaces = world.interfaces;
    SurfaceCache cache(scratch, other);
    std::map<std::uint32_t, std::uint32_t> kept;  // surfaces of the world that stay
    const auto keep = [&](std::uint32_t surface) {
        if (surface == kNone) return kNone;
        const auto [it, fresh] = kept.try_emplace(surface);
        if (fresh) it->second = add_surface(scratch, world.surfaces[surface]);
        return it->second;
    };
    MaterialSet set{world.objects, {}};
    for (Object& object : set.objects) {
        const auto piece = static_cast<std::size_t>(object.piece) - 1;
        const auto tint = static_cast<std::size_t>(object.material) - 1 - layout.stock.size();
        if (object.piece > 0 && piece < laying.pieces.size()) {
            apply(object, piece_object(cache, other, laying.pieces[piece]));
            continue;
        }
        const Material* m = object.piece == 0 && tint < layout.tints.size()
                                ? filling(layout, other, layout.tints[tint].name)
                                : nullptr;
        if (m) {
            apply(object, cache.object(*m, m->thickness_mm, nullptr, 0, 0));
            continue;
        }
        object.surface = keep(object.surface);
        object.roughened_surface = keep(object.roughened_surface);
        object.glassy_surface = keep(object.glassy_surface);
    }
    set.surfaces = std::move(scratch.surfaces);
    return set;
}

}  // namespace rakelight
