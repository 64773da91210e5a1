#include <algorithm>
#include <map>
#include <stdexcept>

#include "renderer/alike.h"

namespace rakelight {

namespace {

bool routes_alike(const Dressing& a, std::uint32_t x, const Dressing& b, std::uint32_t y) {
    if (x == kNone || y == kNone) return x == y;
    return routes_alike(a.surfaces[x], b.surfaces[y]);
}

// The same thing under other numbers of surface and material.
bool same_but_for_numbers(Thing a, const Thing& b) {
    a.surface = b.surface;
    a.glassy_surface = b.glassy_surface;
    a.blunt_surface = b.blunt_surface;
    a.material = b.material;
    return a == b;
}

}  // namespace

bool bounces_alike(const Dressing& a, const Dressing& b) {
    return std::equal(a.things.begin(), a.things.end(), b.things.begin(), b.things.end(),
                      [&](const Thing& x, const Thing& y) {
                          return same_but_for_numbers(x, y) && routes_alike(a, x.surface, b, y.surface) &&
                                 routes_alike(a, x.blunt_surface, b, y.blunt_surface) &&
                                 routes_alike(a, x.glassy_surface, b, y.glassy_surface);
                      });
}

AlikeSurfaces wear_alike(World& world, std::span<const Dressing> dressings) {
    if (dressings.empty() || dressings.size() > kMostAlike)
        throw std::invalid_argument("pictures alike must be 1 to 16");
    AlikeSurfaces all;
    all.of.resize(dressings.size());
    std::map<std::vector<std::uint32_t>, std::uint32_t> numbers;
    const auto number = [&](std::size_t thing, std::uint32_t Thing::*which) {
        if (dressings[0].things[thing].*which == kNone) return kNone;
        std::vector<std::uint32_t> own;
        for (const Dressing& d : dressings) own.push_back(d.things[thing].*which);
        const auto [it, fresh] = numbers.try_emplace(own, static_cast<std::uint32_t>(all.differs.size()));
        if (fresh) {
            bool differs = false;
            for (std::size_t d = 0; d < dressings.size(); ++d) {
                all.of[d].push_back(dressings[d].surfaces[own[d]]);
                differs = differs || all.of[d].back() != all.of[0].back();
            }
            all.differs.push_back(differs);
        }
        return it->second;
    };
    std::vector<Thing> things = dressings[0].things;
    for (std::size_t i = 0; i < things.size(); ++i) {
        things[i].surface = number(i, &Thing::surface);
        things[i].blunt_surface = number(i, &Thing::blunt_surface);
        things[i].glassy_surface = number(i, &Thing::glassy_surface);
    }
    world.things = std::move(things);
    world.surfaces = all.of[0];
    return all;
}

std::vector<Seen> kinds_of_things(const World& world, std::size_t first_tint) {
    std::vector<Seen> kinds;
    for (const Thing& thing : world.things) {
        const bool layered = world.surfaces[thing.surface].kind == Surface::Base::layered;
        const bool filling = thing.material > static_cast<std::int32_t>(first_tint);
        kinds.push_back(thing.piece > 0 ? (layered ? Seen::glass : Seen::piece)
                        : filling       ? Seen::joint
                                        : Seen::other);
    }
    return kinds;
}

}  // namespace rakelight
