#include "renderer/render.h"

#include <tbb/blocked_range2d.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <atomic>
#include <mutex>
#include <stdexcept>

#include "renderer/camera.h"
#include "renderer/light_meter.h"
#include "renderer/path.h"
#include "renderer/tile.h"
#include "scene/window_light.h"

namespace rakelight {

namespace {

bool is_named(const World& world, std::size_t light, const std::vector<std::string>& names) {
    if (names.empty()) return true;
    const std::string& own = world.emitter_names[light];
    const std::string& group = world.groups[world.emitters[light].group];
    return std::any_of(names.begin(), names.end(),
                       [&](const std::string& n) { return n == own || n == group; });
}

Film blank_film(const World& world, const Picture& picture, const RowRange& rows) {
    Film film;
    film.width = picture.width_px;
    film.height = picture.height_px;
    film.rows = rows;
    film.groups = world.groups;
    film.materials = world.materials;
    const std::size_t n = film.pixel_count();
    film.xyz.assign(film.groups.size(), std::vector<glm::vec3>(n, glm::vec3(0)));
    film.error.assign(n, 0);
    film.samples.assign(n, 0);
    film.features.depth_mm.assign(n, 0);
    film.features.normal.assign(n, glm::vec3(0));
    film.features.piece.assign(n, 0);
    film.features.material.assign(n, 0);
    film.features.first_surface_share.assign(n, 0);
    return film;
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

Film render(const World& world, const Rays& rays, const Layout& layout, const Picture& picture,
            const RenderOptions& options) {
    const auto view = std::find_if(layout.viewpoints.begin(), layout.viewpoints.end(),
                                   [&](const Viewpoint& v) { return v.name == picture.viewpoint; });
    if (view == layout.viewpoints.end())
        throw std::invalid_argument("no viewpoint is called " + picture.viewpoint);
    const std::vector<Emitter> lamps = lamps_of_picture(world, layout, picture);

    const RowRange rows = options.rows.value_or(RowRange{0, picture.height_px});
    Film film = blank_film(world, picture, rows);
    if (options.mirrored)
        film.mirrored.assign(film.groups.size(), std::vector<float>(film.pixel_count(), 0.0f));
    TileJob job;
    job.camera = make_camera(*view, picture.width_px, picture.height_px, world.origin_mm);
    job.lens = options.lens;
    job.seed = mix_word(static_cast<std::uint32_t>(layout.seed));
    job.most_samples = options.most_samples.value_or(picture.most_samples);
    job.wanted_error = options.error.value_or(picture.error);
    job.card_cd_per_m2 = 0.18 * panel_white_xyz(world, rays, lamps).y;
    const LampField field(lamps);
    const Stage<Rays> stage{world, rays, field};

    const int first_tile_row = rows.first_row / kTileSize;
    const int end_tile_row = (rows.end_row + kTileSize - 1) / kTileSize;
    const int tile_columns = (film.width + kTileSize - 1) / kTileSize;
    const double tiles = std::max(1, (end_tile_row - first_tile_row) * tile_columns);

    std::atomic<bool> stopped = false;
    std::mutex telling;
    int done = 0;
    tbb::task_arena arena(options.threads > 0 ? options.threads : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(
            tbb::blocked_range2d<int>(first_tile_row, end_tile_row, 1, 0, tile_columns, 1),
            [&](const auto& range) {
                const QuietDenormals quiet;
                for (int row = range.rows().begin(); row != range.rows().end(); ++row)
                    for (int column = range.cols().begin(); column != range.cols().end(); ++column) {
                        if (stopped) return;
                        render_tile(stage, job, column * kTileSize, row * kTileSize, film);
                        const std::scoped_lock lock(telling);
                        if (options.cancelled && options.cancelled()) stopped = true;
                        if (options.progress) options.progress(++done / tiles);
                    }
            },
            tbb::simple_partitioner());
    });
    if (stopped) throw Cancelled{};
    return film;
}

}  // namespace rakelight
