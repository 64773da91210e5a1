#include "renderer/render.h"

#include <algorithm>
#include <stdexcept>

#include "renderer/parallel_tiles.h"
#include "renderer/picture_settings.h"
#include "renderer/tile.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

bool is_named(const World& world, std::size_t light, const std::vector<std::string>& names) {
    if (names.empty()) return true;
    const std::string& own = world.emitter_names[light];
    const std::string& group = world.groups[world.emitters[light].group];
    return std::any_of(names.begin(), names.end(),
                       [&](const std::string& n) { return n == own || n == group; });
}

}  // namespace

std::vector<Emitter> lamps_of_picture(const World& world, const Layout& layout, const Picture& picture) {
    const std::vector<std::string> known = light_names(layout);
    for (const auto& name : picture.lamps)
        if (std::find(known.begin(), known.end(), name) == known.end())
            throw std::invalid_argument("no lamp or lamp group is called " + name);
    std::vector<Emitter> lit;
    for (std::size_t i = 0; i < world.emitters.size(); ++i)
        if (is_named(world, i, picture.lamps) && world.emitters[i].peak_cd_per_m2 > 0)
            lit.push_back(world.emitters[i]);
    return lit;
}

Film render(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
            const RenderOptions& options) {
    const PictureSettings settings = picture_settings(world, bvh, layout, picture, options);
    Film film = blank_film(world, picture, options.rows.value_or(RowRange{0, picture.height_px}));
    if (options.mirrored)
        film.mirrored.assign(film.groups.size(), std::vector<float>(film.pixel_count(), 0.0f));
    const LightSampler lights(settings.lamps);
    const SceneView<Bvh> scene{world, bvh, lights};
    const std::vector<Tile> tiles = tiles_of(film);
    parallel_tiles(tiles.size(), options, [&](std::size_t t) {
        render_tile(scene, settings.tile, tiles[t].left, tiles[t].top, film);
    });
    return film;
}

}  // namespace rakelight
