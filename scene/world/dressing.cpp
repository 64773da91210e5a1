#include "scene/world/dressing.h"

#include <algorithm>
#include <map>

#include "scene/world/side_wall.h"
#include "scene/world/surface_shelf.h"

namespace rakelight {

namespace {

// The look of `fresh` on a thing that stays what it is.
void wear(Thing& thing, const Thing& fresh) {
    thing.surface = fresh.surface;
    thing.blunt_surface = fresh.blunt_surface;
    thing.glassy_surface = fresh.glassy_surface;
    thing.grain = fresh.grain;
    thing.glassy_threshold = fresh.glassy_threshold;
    thing.glassy_patch_mm = fresh.glassy_patch_mm;
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

Dressing dress(const World& world, const Layout& layout, const Laying& laying, const Layout& other) {
    World wardrobe;
    wardrobe.interfaces = world.interfaces;
    SurfaceShelf shelf(wardrobe, other);
    std::map<std::uint32_t, std::uint32_t> kept;  // surfaces of the world that stay
    const auto keep = [&](std::uint32_t surface) {
        if (surface == kNone) return kNone;
        const auto [it, fresh] = kept.try_emplace(surface);
        if (fresh) it->second = add_surface(wardrobe, world.surfaces[surface]);
        return it->second;
    };
    Dressing dressing{world.things, {}};
    for (Thing& thing : dressing.things) {
        const auto piece = static_cast<std::size_t>(thing.piece) - 1;
        const auto tint = static_cast<std::size_t>(thing.material) - 1 - layout.stock.size();
        if (thing.piece > 0 && piece < laying.pieces.size()) {
            wear(thing, piece_thing(shelf, other, laying.pieces[piece]));
            continue;
        }
        const Material* m = thing.piece == 0 && tint < layout.tints.size()
                                ? filling(layout, other, layout.tints[tint].name)
                                : nullptr;
        if (m) {
            wear(thing, shelf.thing(*m, m->thickness_mm, nullptr, 0, 0));
            continue;
        }
        thing.surface = keep(thing.surface);
        thing.blunt_surface = keep(thing.blunt_surface);
        thing.glassy_surface = keep(thing.glassy_surface);
    }
    dressing.surfaces = std::move(wardrobe.surfaces);
    return dressing;
}

}  // namespace rakelight
