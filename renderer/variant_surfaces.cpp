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

// The same object under other numbers of surface and material.
bool same_but_for_numbers(Object a, const Object& b) {
    a.surface = b.surface;
    a.glassy_surface = b.glassy_surface;
    a.roughened_surface = b.roughened_surface;
    a.material = b.material;
    return a == b;
}

}  // namespace

bool can_share_paths(const MaterialSet& a, const MaterialSet& b) {
    const auto same_looks = [&](const Object& x, const Object& y) {
        const int looks = x.marks == kNone ? 1 : a.marks[x.marks].looks();
        for (std::uint32_t look = 0; look < static_cast<std::uint32_t>(looks); ++look)
            if (!same_routing(a, x.surface + look, b, y.surface + look)) return false;
        return true;
    };
    return a.marks == b.marks &&
           std::equal(a.objects.begin(), a.objects.end(), b.objects.begin(), b.objects.end(),
                      [&](const Object& x, const Object& y) {
                          return same_but_for_numbers(x, y) && same_looks(x, y) &&
                                 same_routing(a, x.roughened_surface, b, y.roughened_surface) &&
                                 same_routing(a, x.glassy_surface, b, y.glassy_surface);
                      });
}

VariantSurfaces apply_variants(World& world, std::span<const MaterialSet> sets) {
    if (sets.empty() || sets.size() > kMostVariants) throw std::invalid_argument("variants must be 1 to 16");
    VariantSurfaces all;
    all.of.resize(sets.size());
    std::map<std::vector<std::uint32_t>, std::uint32_t> numbers;
    const auto number = [&](std::size_t object, std::uint32_t Object::*which, std::uint32_t looks = 1) {
        if (sets[0].objects[object].*which == kNone) return kNone;
        std::vector<std::uint32_t> own;
        for (const MaterialSet& d : sets) own.push_back(d.objects[object].*which);
        const auto [it, fresh] = numbers.try_emplace(own, static_cast<std::uint32_t>(all.differs.size()));
        for (std::uint32_t look = 0; fresh && look < looks; ++look) {
            bool differs = false;
            for (std::size_t d = 0; d < sets.size(); ++d) {
                all.of[d].push_back(sets[d].surfaces[own[d] + look]);
                differs = differs || all.of[d].back() != all.of[0].back();
            }
            all.differs.push_back(differs);
        }
        return it->second;
    };
    std::vector<Object> objects = sets[0].objects;
    for (std::size_t i = 0; i < objects.size(); ++i) {
        const std::uint32_t marks = objects[i].marks;
        const int looks = marks == kNone ? 1 : sets[0].marks[marks].looks();
        objects[i].surface = number(i, &Object::surface, static_cast<std::uint32_t>(looks));
        objects[i].roughened_surface = number(i, &Object::roughened_surface);
        objects[i].glassy_surface = number(i, &Object::glassy_surface);
    }
    world.objects = std::move(objects);
    world.surfaces = all.of[0];
    world.marks = sets[0].marks;
    return all;
}

std::vector<Seen> kinds_of_objects(const World& world, std::size_t first_tint) {
    std::vector<Seen> kinds;
    for (const Object& object : world.objects) {
        const bool layered = world.surfaces[object.surface].kind == Surface::Base::layered;
        const bool filling = object.material > static_cast<std::int32_t>(first_tint);
        kinds.push_back(object.piece > 0 ? (layered ? Seen::glass : Seen::piece)
                        : filling        ? Seen::joint
                                         : Seen::other);
    }
    return kinds;
}

}  // namespace rakelight
