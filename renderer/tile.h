// Rendering of one tile of a picture.
#pragma once

#include "renderer/tile_samples.h"

namespace rakelight {

/// Samples the tile whose upper left pixel is (left, top) and writes those of its rows that lie in
/// `film.rows`.
template <class RayCaster>
void render_tile(const SceneView<RayCaster>& scene, const TileSettings& settings, int left, int top,
                 Film& film) {
    const Tile tile = tile_at(film, left, top);
    const std::size_t groups = film.groups.size();
    std::vector<glm::dvec3> xyz(tile.pixels() * groups, glm::dvec3(0));
    std::vector<double> mirrored(film.mirrored.empty() ? 0 : tile.pixels() * groups, 0.0);
    const TileSamples sampled =
        sample_tile(settings, film, tile, [&](std::span<Path> paths, std::span<float> of_path) {
            trace_paths(scene, paths, PathSums{xyz, mirrored, of_path});
        });
    const double n = sampled.samples;
    for (std::size_t p = 0; p < tile.pixels(); ++p) {
        if (tile.y(p) < film.rows.first_row || tile.y(p) >= film.rows.end_row) continue;
        const std::size_t at = write_sight(tile, sampled, p, film);
        for (std::size_t g = 0; g < groups; ++g) film.xyz[g][at] = glm::vec3(xyz[p * groups + g] / n);
        for (std::size_t g = 0; g < film.mirrored.size(); ++g)
            film.mirrored[g][at] = static_cast<float>(mirrored[p * groups + g] / n);
    }
}

}  // namespace rakelight
