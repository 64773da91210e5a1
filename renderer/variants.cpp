#include "renderer/variants.h"

#include "renderer/parallel_tiles.h"
#include "renderer/picture_settings.h"
#include "renderer/tile_step.h"
#include "renderer/variant_paths.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

VariantSums blank_sums(std::size_t pixels, std::size_t pictures, std::size_t groups) {
    VariantSums light;
    light.pictures = pictures;
    light.groups = groups;
    light.shared.assign(pixels * groups, glm::dvec3(0));
    light.own.assign(pixels * pictures * groups, glm::dvec3(0));
    light.seen.assign(kSeenKinds * (pictures + 1) * groups, glm::dvec3(0));
    light.seen_by_body = light.seen;
    return light;
}

void write_tile(const Tile& tile, const TileSamples& sampled, const VariantSums& light,
                std::vector<VariantFilm>& films) {
    const double n = sampled.samples;
    for (std::size_t p = 0; p < tile.pixels(); ++p)
        for (std::size_t i = 0; i < films.size(); ++i) {
            Film& film = films[i].film;
            const std::size_t at = write_sight(tile, sampled, p, film);
            for (std::size_t g = 0; g < light.groups; ++g)
                film.xyz[g][at] = glm::vec3((light.shared[p * light.groups + g] +
                                             light.own[(p * light.pictures + i) * light.groups + g]) /
                                            n);
        }
}

// What is left of a tile once its pixels are written.
struct TileSeen {
    VariantSums light;
    int samples = 0;
};

// Tiles are added up in their own order, whoever finished first. A tile counts by its pixels, not by how many
// paths it needed.
void add_up(const std::vector<TileSeen>& tiles, std::vector<VariantFilm>& films) {
    const std::size_t groups = films[0].film.groups.size();
    const auto total = static_cast<double>(films[0].film.pixel_count());
    for (std::size_t i = 0; i < films.size(); ++i)
        for (std::size_t kind = 0; kind < kSeenKinds; ++kind) {
            SeenLight& seen = films[i].seen[kind];
            seen.xyz.assign(groups, glm::dvec3(0));
            seen.by_body = seen.xyz;
            for (const TileSeen& tile : tiles) {
                const double a_path = 1.0 / tile.samples;
                const VariantSums& light = tile.light;
                seen.share += light.rays[kind] * a_path / total;
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

std::vector<VariantFilm> render_variants(const World& world, const VariantSurfaces& surfaces, const Bvh& bvh,
                                         const Layout& layout, const Picture& picture,
                                         std::span<const Seen> kinds, const RenderOptions& options) {
    const PictureSettings settings = picture_settings(world, bvh, layout, picture, options);
    const Film blank = blank_film(world, picture, {0, picture.height_px});
    std::vector<VariantFilm> films(surfaces.count(), VariantFilm{blank, {}});
    const LightSampler lights(settings.lamps);
    const VariantScene scene{{world, bvh, lights}, surfaces, kinds};
    const std::vector<Tile> tiles = tiles_of(blank);
    std::vector<TileSeen> seen(tiles.size());
    parallel_tiles(tiles.size(), options, [&](std::size_t t) {
        VariantSums& light = seen[t].light =
            blank_sums(tiles[t].pixels(), surfaces.count(), blank.groups.size());
        std::vector<VariantPath> parts(kMostPaths);
        TileSamples sampled(tiles[t], blank.groups.size());
        sample_tile(
            settings.tile, blank, tiles[t], settings.tile.most_samples, sampled,
            [&](std::span<Path> paths, std::span<float> of_path) {
                light.of_path = of_path;
                trace_variants(scene, paths, parts, light);
            },
            true);
        light.of_path = {};
        write_tile(tiles[t], sampled, light, films);
        seen[t].samples = sampled.samples;
        light.shared = {};
        light.own = {};
    });
    add_up(seen, films);
    return films;
}

}  // namespace rakelight
