#include "output/watch/kept_rooms.h"

#include <algorithm>
#include <array>

#include "output/board/geometry_key.h"
#include "output/film/scene_hash.h"
#include "output/system/safe_file.h"
#include "scene/keys/keys.h"
#include "scene/light/with_light.h"
#include "scene/text/layout_tree.h"
#include "scene/text/tree_words.h"
#include "scene/world/material_set.h"

namespace rakelight {

namespace {

// Of the files that the tree does not hold: drawings, pictures, curves, piece tables, the panel beside.
std::uint64_t other_files(const Layout& layout) {
    const std::vector<std::string>& in_tree = layout.sources.tree->files;
    std::uint64_t hash = fnv1a({});
    for (const std::string& file : layout.sources.files)
        if (std::ranges::find(in_tree, file) == in_tree.end())
            hash = fnv1a(read_file(file), fnv1a(file + "\n", hash));
    return hash;
}

// Equal for layouts that lay the same pieces and form the same meshes.
std::string geometry_of(const Layout& layout) {
    const YamlValue& root = layout.sources.tree->root;
    std::string key = geometry_key(root, layout) + hash_digits(other_files(layout));
    for (const YamlMember& m : root.members)
        if (m.key.text == "beside") add_tree_words(m.value, key);
    for (const std::string& change : layout.sources.changes) key += change + "\n";
    return key;
}

// Equal for layouts of one geometry whose surfaces are the same.
std::string colours_of(const Layout& layout) {
    constexpr std::array<std::string_view, 4> kLights{"lamps", "daylight", "viewpoints", "pictures"};
    std::string key;
    add_tree_words(layout.sources.tree->root, key, [&](std::string_view word) {
        return std::ranges::find(kLights, word) != kLights.end() ||
               std::ranges::find(keys::kDeliverables, word) != keys::kDeliverables.end();
    });
    return key;
}

}  // namespace

Holds KeptRooms::take(Layout layout) {
    const std::string geometry = geometry_of(layout), colours = colours_of(layout);
    const bool same_geometry = layout_ && geometry == geometry_key_;
    const bool same_colours = same_geometry && colours == colour_key_;
    if (!same_geometry) {
        const bool same_files = layout_ && other_files(layout) == files_;
        LaidFields fields = same_files ? fields_ : LaidFields();
        Laying laying = lay(layout, &fields);
        beside_ = lay_beside(layout);
        laying_ = std::move(laying);
        fields_ = std::move(fields);
        files_ = other_files(layout);
        ++geometry_;
    }
    if (!same_colours) ++colours_;
    geometry_key_ = geometry;
    colour_key_ = colours;
    layout_ = std::move(layout);
    if (same_colours) return Holds::all_but_lights;
    if (same_geometry) return Holds::meshes;
    return fields_.taken > 0 ? Holds::some_fields : Holds::nothing;
}

// Puts other surfaces on the meshes of a world; not where another panel hangs beside.
bool KeptRooms::recolour(Stand& stand, Layout& lit) const {
    if (lit.beside) return false;
    MaterialSet set = make_material_set(stand.world, stand.lit, laying_, lit);
    if (set.marks.size() != stand.world.marks.size())
        return false;  // grout with sand knows how far pieces are
    // Materials are told by their place among stock and tints, of which the tints are others now.
    const auto filling_now = [&](std::int32_t material) {
        const auto tint = static_cast<std::size_t>(material) - 1 - lit.stock.size();
        for (std::size_t f = 0; f < lit.fields.size(); ++f)
            if (filling_of(stand.lit.fields[f]) == tint)
                return static_cast<std::int32_t>(lit.stock.size() + filling_of(lit.fields[f])) + 1;
        return material;
    };
    for (Object& object : set.objects)
        if (object.piece == 0 && object.material > static_cast<std::int32_t>(lit.stock.size()))
            object.material = filling_now(object.material);
    stand.world.objects = std::move(set.objects);
    stand.world.surfaces = std::move(set.surfaces);
    stand.world.materials.clear();
    for (const Material& m : lit.stock) stand.world.materials.push_back(m.name);
    for (const Material& m : lit.tints) stand.world.materials.push_back(m.name);
    return true;
}

void KeptRooms::build(std::unique_ptr<Stand>& stand, Layout lit, double finest_mm) const {
    stand.reset();  // first, for its memory
    World world = build_world(lit, laying_, beside_ ? &*beside_ : nullptr, finest_mm);
    stand =
        std::make_unique<Stand>(Stand{finest_mm, std::move(lit), geometry_, colours_, std::move(world), {}});
    stand->bvh.emplace(stand->world, finest_mm > 0);
}

LitRooms::Room KeptRooms::in(const std::string& light, double finest_mm) {
    std::unique_ptr<Stand>& stand = finest_mm > 0 ? coarse_ : full_;
    Layout lit = light.empty() || light == layout_->on.name ? *layout_ : with_light(*layout_, light);
    const bool holds = stand && stand->geometry == geometry_ && stand->finest_mm == finest_mm &&
                       differ_in_lights_only(stand->lit, lit) &&
                       (stand->colours == colours_ || recolour(*stand, lit));
    if (holds) {
        set_lights(stand->world, lit);
        stand->lit = std::move(lit);
        stand->colours = colours_;
    } else {
        build(stand, std::move(lit), finest_mm);
    }
    return {stand->lit, stand->world, *stand->bvh};
}

}  // namespace rakelight
