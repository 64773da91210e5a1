#include <algorithm>
#include <map>
#include <stdexcept>

#include "renderer/alike.h"

namespace rakelight {

namespace {

// What decides where a path goes, and how likely.
bool same_face(const Surface& a, const Surface& b) {
    return a.face == b.face && a.kind == b.kind && a.drawn_out == b.drawn_out &&
           a.matte.shape == b.matte.shape && a.matte.plain == b.matte.plain && a.leaf.table == b.leaf.table &&
           a.leaf.clear == b.leaf.clear;
}

bool same_bands(const Surface& a, const Surface& b) {
    const auto equal = [](const Bands& x, const Bands& y) {
        return std::equal(x.v.begin(), x.v.end(), y.v.begin());
    };
    return a.mean_albedo == b.mean_albedo && a.max_body_scale == b.max_body_scale && equal(a.even, b.even) &&
           equal(a.among, b.among) && std::equal(a.g.begin(), a.g.end(), b.g.begin(), equal);
}

bool same_faces(const Dressing& a, std::uint32_t x, const Dressing& b, std::uint32_t y) {
    if (x == kNone || y == kNone) return x == y;
    return same_face(a.surfaces[x], b.surfaces[y]);
}

bool same_grain(const Thing& a, const Thing& b) {
    return a.grain.contrast == b.grain.contrast && a.grain.size_mm == b.grain.size_mm &&
           a.grain.band_ratio == b.grain.band_ratio && a.glassy_threshold == b.glassy_threshold &&
           a.glassy_patch_mm == b.glassy_patch_mm && a.seed == b.seed;
}

}  // namespace

bool bounces_alike(const Dressing& a, const Dressing& b) {
    return std::equal(a.things.begin(), a.things.end(), b.things.begin(), b.things.end(),
                      [&](const Thing& x, const Thing& y) {
                          return same_grain(x, y) && same_faces(a, x.surface, b, y.surface) &&
                                 same_faces(a, x.blunt_surface, b, y.blunt_surface) &&
                                 same_faces(a, x.glassy_surface, b, y.glassy_surface);
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
                differs = differs || !same_bands(all.of[d].back(), all.of[0].back());
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
        const bool layered = world.surfaces[thing.surface].kind == Surface::Body::layered;
        const bool filling = thing.material > static_cast<std::int32_t>(first_tint);
        kinds.push_back(thing.piece > 0 ? (layered ? Seen::glass : Seen::piece)
                        : filling       ? Seen::joint
                                        : Seen::other);
    }
    return kinds;
}

}  // namespace rakelight
