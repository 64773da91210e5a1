// A tile of 16 by 16 pixels, and what its samples add up to.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "renderer/blocks.h"
#include "renderer/eye_rays.h"
#include "renderer/path.h"
#include "renderer/tile_error.h"

namespace rakelight {

inline constexpr int kTileSize = 16;

/// Of so many samples of a pixel, those that come in the second half of a round: eight samples that follow
/// each other are spread as evenly as sixteen are.
inline constexpr int second_half(int samples) {
    return samples / kSamplesARound * kSamplesABatch + std::max(0, samples % kSamplesARound - kSamplesABatch);
}

/// Pixels of a film, kTileSize each way or what is left of that at its right and lower edge; rows first.
struct Tile {
    int left = 0, top = 0, columns = 0, rows = 0;

    /// How many, and the column and row in the film of the one counted by rows.
    std::size_t pixels() const { return static_cast<std::size_t>(columns * rows); }
    int x(std::size_t pixel) const { return left + static_cast<int>(pixel) % columns; }
    int y(std::size_t pixel) const { return top + static_cast<int>(pixel) / columns; }

    /// Blocks, and the one in which a pixel lies; rows first.
    int block_columns() const { return (columns + kBlockSize - 1) / kBlockSize; }
    std::size_t blocks() const {
        return static_cast<std::size_t>(block_columns() * ((rows + kBlockSize - 1) / kBlockSize));
    }
    std::size_t block(std::size_t pixel) const {
        const int x = static_cast<int>(pixel) % columns, y = static_cast<int>(pixel) / columns;
        return static_cast<std::size_t>(y / kBlockSize * block_columns() + x / kBlockSize);
    }
};

/// The tile whose upper left pixel is (left, top).
inline Tile tile_at(const Film& film, int left, int top) {
    return {left, top, std::min(kTileSize, film.width - left), std::min(kTileSize, film.height - top)};
}

/// What all tiles of a picture share.
struct TileSettings {
    Camera camera;
    Lens lens;
    std::uint32_t seed = 0;
    int most_samples = 512;
    double wanted_error = 0.02;
    double card_cd_per_m2 =
        0;  ///< luminance of a grey card on the panel: what a dark pixel is judged against
    std::span<const Surface> surfaces;  ///< of the world; empty: nobody asks for their colours
    std::vector<glm::vec3> colours;     ///< of their bases, see surface_colours

    /// Of one of `surfaces`; black where the eye ray met nothing.
    glm::vec3 colour_of(const Surface* surface) const {
        return surface && !colours.empty() ? colours[static_cast<std::size_t>(surface - surfaces.data())]
                                           : glm::vec3(0);
    }
    float patience = 1;      ///< of paths, see PathPayload
    bool footprints = true;  ///< interfaces stand for their own curve, see footprint.h

    /// Light of a pixel below which its grain is not seen, cd/m2.
    double floor_cd_per_m2() const { return 0.1 * card_cd_per_m2 + 1e-9; }
    /// What a path counts as at most where samples are shared out: a stray bright one tells of itself, and
    /// not of its neighbours, and where to go must not hang on whether it was met.
    double most_counted_cd_per_m2() const { return 4 * card_cd_per_m2 + 1e-9; }
};

/// What a pixel's paths found, added up.
struct PixelSum {
    BatchSums light;   ///< luminance
    BatchSums shaded;  ///< the same, no path brighter than `most_counted_cd_per_m2`
    double first_surface = 0;
    double depth_mm = 0;
    glm::dvec3 reflectance{};
    double half_luminance = 0;  ///< of the second half-rounds alone, as is half_first_surface
    double half_first_surface = 0;
    glm::dvec3 indirect{};  ///< XYZ, of bodies
    double half_indirect = 0;
    glm::dvec3 normal{};
    std::int32_t piece = -1;  ///< of the first sample
    std::int32_t material = 0;

    /// Takes in a finished path, but for `light` and `shaded`; what the eye sees is that of the first
    /// taken. `second`: it belongs to the second half of a round.
    void add(const Path& path, bool second, const glm::vec3& colour) {
        const double y = path.luminance_cd_per_m2;
        first_surface += path.first_surface_cd_per_m2;
        half_luminance += second ? y : 0;
        half_first_surface += second ? path.first_surface_cd_per_m2 : 0;
        indirect += glm::dvec3(path.indirect_xyz);
        half_indirect += second ? path.indirect_xyz.y : 0;
        depth_mm += path.sight.distance_mm;
        reflectance += glm::dvec3(colour * path.sight.base_scale);
        normal += glm::dvec3(path.sight.normal);
        if (piece < 0) {
            piece = path.sight.piece;
            material = path.sight.material;
        }
    }
};

/// A tile as far as it is sampled.
struct TileSamples {
    std::vector<PixelSum> pixels;  ///< in the tile's order
    std::vector<Block> blocks;
    GroupLight by_group;
    int samples = 0;       ///< of each pixel at most: kSamplesARound for each step
    bool is_done = false;  ///< fine enough, or sampled as often as is allowed

    TileSamples(const Tile& tile, std::size_t groups)
        : pixels(tile.pixels()), blocks(tile.blocks()), by_group(tile.pixels(), groups) {}
};

/// Writes all but the light of pixel `p` of a tile. Returns the pixel's place in the film.
inline std::size_t write_sight(const Tile& tile, const TileSamples& sampled, std::size_t p, Film& film) {
    const std::size_t at = film.row_start(tile.y(p)) + static_cast<std::size_t>(tile.x(p));
    const PixelSum& sum = sampled.pixels[p];
    const int n = sampled.blocks[tile.block(p)].samples;
    film.error[at] = static_cast<float>(sum.light.error(n));
    film.samples[at] = n;
    film.features.depth_mm[at] = static_cast<float>(sum.depth_mm / n);
    film.features.normal[at] = glm::vec3(sum.normal / double(n));
    film.features.piece[at] = sum.piece;
    film.features.material[at] = sum.material;
    film.features.first_surface_share[at] =
        sum.light.sum > 0 ? static_cast<float>(sum.first_surface / sum.light.sum) : 0.0f;
    if (!film.guide.is_there) return at;
    const double half = std::max(1, second_half(n));
    film.guide.half_cd_per_m2[at] = static_cast<float>(sum.half_luminance / half);
    film.guide.half_first_surface_cd_per_m2[at] = static_cast<float>(sum.half_first_surface / half);
    film.guide.half_indirect_cd_per_m2[at] = static_cast<float>(sum.half_indirect / half);
    film.guide.indirect[at] = glm::vec3(sum.indirect / double(n));
    film.guide.reflectance[at] = glm::vec3(sum.reflectance / double(n));
    return at;
}

}  // namespace rakelight
