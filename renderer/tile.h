// Rendering of one tile of a picture.
#pragma once

#include "renderer/tile_step.h"

namespace rakelight {

/// A tile of a picture as far as it is traced.
struct TileLight {
    TileSamples sampled;
    std::vector<glm::dvec3> xyz;   ///< sums of [pixel][group], cd/m2
    std::vector<double> mirrored;  ///< the same of what the first interface mirrors; empty = not asked for

    TileLight(const Tile& tile, const Film& film)
        : sampled(tile, film.groups.size()),
          xyz(tile.pixels() * film.groups.size(), glm::dvec3(0)),
          mirrored(film.mirrored.empty() ? 0 : tile.pixels() * film.groups.size(), 0.0) {}
};

/// Goes on tracing a tile, no further than `until` samples of each pixel (see sample_tile).
template <class RayCaster>
void trace_tile(const SceneView<RayCaster>& scene, const TileSettings& settings, const Film& film,
                const Tile& tile, int until, TileLight& light) {
    sample_tile(
        settings, film, tile, until, light.sampled, [&](std::span<Path> paths, std::span<float> of_path) {
            trace_paths(scene, paths, PathSums{light.xyz, light.mirrored, of_path}, settings.patience);
        });
}

/// Writes those rows of a tile that lie in `film.rows`. Precondition: it has samples.
inline void write_tile(const Tile& tile, const TileLight& light, Film& film) {
    const std::size_t groups = film.groups.size();
    for (std::size_t p = 0; p < tile.pixels(); ++p) {
        if (tile.y(p) < film.rows.first_row || tile.y(p) >= film.rows.end_row) continue;
        const std::size_t at = write_sight(tile, light.sampled, p, film);
        const double n = film.samples[at];
        for (std::size_t g = 0; g < groups; ++g) film.xyz[g][at] = glm::vec3(light.xyz[p * groups + g] / n);
        for (std::size_t g = 0; g < film.mirrored.size(); ++g)
            film.mirrored[g][at] = static_cast<float>(light.mirrored[p * groups + g] / n);
    }
}

/// Samples the tile whose upper left pixel is (left, top) and writes those of its rows that lie in
/// `film.rows`.
template <class RayCaster>
void render_tile(const SceneView<RayCaster>& scene, const TileSettings& settings, int left, int top,
                 Film& film) {
    const Tile tile = tile_at(film, left, top);
    TileLight light(tile, film);
    trace_tile(scene, settings, film, tile, settings.most_samples, light);
    write_tile(tile, light, film);
}

}  // namespace rakelight
