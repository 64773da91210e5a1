#include <algorithm>
#include <map>
#include <stdexcept>

#include "renderer/variants.h"

namespace rakelight {

namespace {

bool same_routing(const MaterialSet& a, std::uint32_t x, const MaterialSet& b, std::uint32_t y) {
    if (x == kNone || y == kNone) return x == y;
    return same_routing(a.surfaces[x], b.surfaces[y]);
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

bool can_share_paths(const MaterialSet& a, const MaterialSet& b) {
    return std::equal(a.things.begin(), a.things.end(), b.things.begin(), b.things.end(),
                      [&](const Thing& x, const Thing& y) {
                          return same_but_for_numbers(x, y) && same_routing(a, x.surface, b, y.surface) &&
                                 same_routing(a, x.blunt_surface, b, y.blunt_surface) &&
                                 same_routing(a, x.glassy_surface, b, y.glassy_surface);
                      });
}

VariantSurfaces apply_variants(World& world, std::span<const MaterialSet> sets) {
    if (sets.empty() || sets.size() > kMostVariants) throw std::invalid_argument("variants must be 1 to 16");
    VariantSurfaces all;
    all.of.resize(sets.size());
    std::map<std::vector<std::uint32_t>, std::uint32_t> numbers;
    const auto number = [&](std::size_t thing, std::uint32_t Thing::*which) {
        if (sets[0].things[thing].*which == kNone) return kNone;
        std::vector<std::uint32_t> own;
        for (const MaterialSet& d : sets) own.push_back(d.things[thing].*which);
        const auto [it, fresh] = numbers.try_emplace(own, static_cast<std::uint32_t>(all.differs.size()));
        if (fresh) {
            bool differs = false;
            for (std::size_t d = 0; d < sets.size(); ++d) {
                all.of[d].push_back(sets[d].surfaces[own[d]]);
                differs = differs || all.of[d].back() != all.of[0].back();
            }
            all.differs.push_back(differs);
        }
        return it->second;
    };
    std::vector<Thing> things = sets[0].things;
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
