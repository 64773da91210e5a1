#include "renderer/alike.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <atomic>
#include <mutex>
#include <stdexcept>

#include "renderer/alike_paths.h"
#include "renderer/light_meter.h"
#include "renderer/tile.h"

namespace rakelight {

namespace {

struct Tile {
    int left = 0, top = 0, columns = 0, rows = 0;
    std::size_t pixels() const { return static_cast<std::size_t>(columns * rows); }
};

// What a tile found, still as sums.
struct TileSums {
    std::vector<tile_detail::PixelSum> pixels;
    AlikeSums light;
    std::array<double, kSeenKinds> seen{};  // eye rays
    int samples = 0;
};

TileSums sample_tile(const path_detail::AlikeStage& stage, const TileJob& job, const Film& film,
                     const Tile& tile) {
    TileSums sums;
    const std::size_t pixels = tile.pixels();
    sums.pixels.resize(pixels);
    AlikeSums& light = sums.light;
    light.pictures = stage.surfaces.count();
    light.groups = film.groups.size();
    light.shared.assign(pixels * light.groups, glm::dvec3(0));
    light.own.assign(pixels * light.pictures * light.groups, glm::dvec3(0));
    light.seen.assign(kSeenKinds * (light.pictures + 1) * light.groups, glm::dvec3(0));
    light.seen_by_body = light.seen;
    std::vector<Path> fresh(kSamplesARound);
    std::vector<AlikePath> company(kMostPaths);
    const double floor = 0.1 * job.card_cd_per_m2 + 1e-9;
    while (sums.samples < job.most_samples) {
        const int end = std::min(sums.samples + kSamplesARound, job.most_samples);
        const auto round = static_cast<std::size_t>(end - sums.samples);
        const std::size_t pixels_at_once = kMostPaths / kSamplesARound;
        for (std::size_t first = 0; first < pixels; first += pixels_at_once) {
            const std::size_t last = std::min(first + pixels_at_once, pixels);
            std::size_t count = 0;
            for (std::size_t p = first; p < last; ++p) {
                tile_detail::start_paths(
                    job, film, tile.left + static_cast<int>(p) % tile.columns,
                    tile.top + static_cast<int>(p) / tile.columns, static_cast<std::uint32_t>(p),
                    static_cast<std::uint32_t>(sums.samples), std::span(fresh.data(), round));
                for (std::size_t i = 0; i < round; ++i) {
                    AlikePath& path = company[count++];
                    static_cast<Path&>(path) = fresh[i];
                    path.split = false;
                    path.seen = Seen::other;
                }
            }
            const std::span<AlikePath> paths(company.data(), count);
            trace_alike(stage, paths, light);
            for (const AlikePath& path : paths) {
                sums.pixels[path.slot].add(path);
                ++sums.seen[static_cast<std::size_t>(path.seen)];
            }
        }
        sums.samples = end;
        if (sums.samples < 2 * kSamplesARound) continue;
        double error = 0;
        for (const tile_detail::PixelSum& sum : sums.pixels) {
            const double mean = sum.luminance / sums.samples;
            const double variance =
                std::max(0.0, sum.luminance_squared / sums.samples - mean * mean) / sums.samples;
            error += std::sqrt(variance) / (mean + floor);
        }
        if (error <= job.wanted_error * static_cast<double>(pixels)) break;
    }
    return sums;
}

void write_tile(const Tile& tile, const TileSums& sums, std::vector<AlikeFilm>& films) {
    const double n = sums.samples;
    const AlikeSums& light = sums.light;
    for (std::size_t p = 0; p < tile.pixels(); ++p) {
        const int x = tile.left + static_cast<int>(p) % tile.columns;
        const int y = tile.top + static_cast<int>(p) / tile.columns;
        const tile_detail::PixelSum& sum = sums.pixels[p];
        const double mean = sum.luminance / n;
        for (std::size_t i = 0; i < films.size(); ++i) {
            Film& film = films[i].film;
            const std::size_t at = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                                   static_cast<std::size_t>(x);
            for (std::size_t g = 0; g < light.groups; ++g)
                film.xyz[g][at] = glm::vec3((light.shared[p * light.groups + g] +
                                             light.own[(p * light.pictures + i) * light.groups + g]) /
                                            n);
            film.error[at] =
                static_cast<float>(std::sqrt(std::max(0.0, sum.luminance_squared / n - mean * mean) / n));
            film.samples[at] = sums.samples;
            film.features.depth_mm[at] = static_cast<float>(sum.depth_mm / n);
            film.features.normal[at] = glm::vec3(sum.normal / n);
            film.features.piece[at] = sum.piece;
            film.features.material[at] = sum.material;
            film.features.first_surface_share[at] =
                sum.luminance > 0 ? static_cast<float>(sum.first_surface / sum.luminance) : 0.0f;
        }
    }
}

Film blank(const World& world, const Picture& picture) {
    Film film;
    film.width = picture.width_px;
    film.height = picture.height_px;
    film.rows = {0, picture.height_px};
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

// Tiles are added up in their own order, whoever finished first. A tile counts by its pixels, not by how many
// paths it needed.
void add_up(const std::vector<Tile>& tiles, const std::vector<TileSums>& sums,
            std::vector<AlikeFilm>& films) {
    const std::size_t groups = films[0].film.groups.size();
    const auto total = static_cast<double>(films[0].film.pixel_count());
    for (std::size_t i = 0; i < films.size(); ++i)
        for (std::size_t kind = 0; kind < kSeenKinds; ++kind) {
            SeenLight& seen = films[i].seen[kind];
            seen.xyz.assign(groups, glm::dvec3(0));
            seen.by_body = seen.xyz;
            for (std::size_t t = 0; t < tiles.size(); ++t) {
                const double a_path = 1.0 / sums[t].samples;
                seen.share += sums[t].seen[kind] * a_path / total;
                const AlikeSums& light = sums[t].light;
                for (std::size_t g = 0; g < groups; ++g)
                    for (const std::size_t picture : {std::size_t{0}, i + 1}) {
                        const std::size_t at = (kind * (light.pictures + 1) + picture) * groups + g;
                        seen.xyz[g] += light.seen[at] * (a_path / total);
                        seen.by_body[g] += light.seen_by_body[at] * (a_path / total);
                    }
            }
            for (std::size_t g = 0; g < groups && seen.share > 0; ++g) {
                seen.xyz[g] /= seen.share;
                seen.by_body[g] /= seen.share;
            }
        }
}

}  // namespace

std::vector<AlikeFilm> render_alike(const World& world, const AlikeSurfaces& surfaces, const Rays& rays,
                                    const Layout& layout, const Picture& picture, std::span<const Seen> kinds,
                                    const RenderOptions& options) {
    const auto view = std::find_if(layout.viewpoints.begin(), layout.viewpoints.end(),
                                   [&](const Viewpoint& v) { return v.name == picture.viewpoint; });
    if (view == layout.viewpoints.end())
        throw std::invalid_argument("no viewpoint is called " + picture.viewpoint);
    const std::vector<Emitter> lamps = lamps_of_picture(world, layout, picture);
    std::vector<AlikeFilm> films(surfaces.count());
    for (AlikeFilm& f : films) f.film = blank(world, picture);
    TileJob job;
    job.camera = make_camera(*view, picture.width_px, picture.height_px, world.origin_mm);
    job.seed = mix_word(static_cast<std::uint32_t>(layout.seed));
    job.most_samples = options.most_samples.value_or(picture.most_samples);
    job.wanted_error = options.error.value_or(picture.error);
    job.card_cd_per_m2 = 0.18 * panel_white_xyz(world, rays, lamps).y;
    const LampField field(lamps);
    const path_detail::AlikeStage stage{world, surfaces, rays, field, kinds};

    std::vector<Tile> tiles;
    for (int top = 0; top < picture.height_px; top += kTileSize)
        for (int left = 0; left < picture.width_px; left += kTileSize)
            tiles.push_back({left, top, std::min(kTileSize, picture.width_px - left),
                             std::min(kTileSize, picture.height_px - top)});
    std::vector<TileSums> sums(tiles.size());
    std::atomic<bool> stopped = false;
    std::mutex telling;
    double done = 0;
    tbb::task_arena arena(options.threads > 0 ? options.threads : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(
            tbb::blocked_range<std::size_t>(0, tiles.size(), 1),
            [&](const auto& range) {
                const QuietDenormals quiet;
                for (std::size_t t = range.begin(); t != range.end(); ++t) {
                    if (stopped) return;
                    sums[t] = sample_tile(stage, job, films[0].film, tiles[t]);
                    write_tile(tiles[t], sums[t], films);
                    sums[t].light.shared = {};
                    sums[t].light.own = {};
                    sums[t].pixels = {};
                    const std::scoped_lock lock(telling);
                    if (options.cancelled && options.cancelled()) stopped = true;
                    if (options.progress) options.progress(++done / static_cast<double>(tiles.size()));
                }
            },
            tbb::simple_partitioner());
    });
    if (stopped) throw Cancelled{};
    add_up(tiles, sums, films);
    return films;
}

}  // namespace rakelight
