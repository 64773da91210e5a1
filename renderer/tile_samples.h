// Adaptive sampling of a tile of 16 by 16 pixels. A tile decides from its own samples alone, and a tile cut
// by the edge of a row range is sampled whole: so pictures do not depend on how the work is split.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "renderer/camera.h"
#include "renderer/film.h"
#include "renderer/lens.h"
#include "renderer/path.h"
#include "renderer/tile_error.h"

namespace rakelight {

inline constexpr int kTileSize = 16;
inline constexpr int kSamplesARound = 16;

/// Of so many samples of a pixel, those that come in the second half of a round: eight samples that follow
/// each other are spread as evenly as sixteen are.
inline constexpr int second_half(int samples) {
    constexpr int kHalf = kSamplesARound / 2;
    return samples / kSamplesARound * kHalf + std::max(0, samples % kSamplesARound - kHalf);
}

/// Pixels of a film, kTileSize each way or what is left of that at its right and lower edge; rows first.
struct Tile {
    int left = 0, top = 0, columns = 0, rows = 0;

    /// How many, and the column and row in the film of the one counted by rows.
    std::size_t pixels() const { return static_cast<std::size_t>(columns * rows); }
    int x(std::size_t pixel) const { return left + static_cast<int>(pixel) % columns; }
    int y(std::size_t pixel) const { return top + static_cast<int>(pixel) / columns; }
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
    float patience = 1;  ///< of paths, see PathPayload
};

/// What a pixel's paths found, added up.
struct PixelSum {
    double luminance = 0;
    double luminance_squared = 0;
    double first_surface = 0;
    double depth_mm = 0;
    glm::dvec3 reflectance{};
    double half_luminance = 0;  ///< of the second half-rounds alone, as is half_first_surface
    double half_first_surface = 0;
    glm::dvec3 normal{};
    std::int32_t piece = -1;  ///< of the first sample
    std::int32_t material = 0;

    /// Takes in a finished path; what the eye sees is that of the first taken. `second`: it belongs to the
    /// second half of a round.
    void add(const Path& path, bool second, const glm::vec3& colour) {
        const double y = path.luminance_cd_per_m2;
        luminance += y;
        luminance_squared += y * y;
        first_surface += path.first_surface_cd_per_m2;
        half_luminance += second ? y : 0;
        half_first_surface += second ? path.first_surface_cd_per_m2 : 0;
        depth_mm += path.sight.distance_mm;
        reflectance += glm::dvec3(colour * path.sight.base_scale);
        normal += glm::dvec3(path.sight.normal);
        if (piece < 0) {
            piece = path.sight.piece;
            material = path.sight.material;
        }
    }

    /// Standard error of the mean luminance of `samples` paths.
    double error(int samples) const {
        const double mean = luminance / samples;
        return std::sqrt(std::max(0.0, luminance_squared / samples - mean * mean) / samples);
    }
};

/// A tile as far as it is sampled.
struct TileSamples {
    std::vector<PixelSum> pixels;  ///< in the tile's order
    GroupLight by_group;
    int samples = 0;       ///< of each pixel
    bool is_done = false;  ///< fine enough, or sampled as often as is allowed

    TileSamples(const Tile& tile, std::size_t groups)
        : pixels(tile.pixels()), by_group(tile.pixels(), groups) {}
};

namespace tile_detail {

// Uniform numbers to offsets of a tent filter one pixel wide each way.
inline Floats tent(const Floats& u) {
    return u < 0.5f ? sqrt(2 * u) - 1 : 1 - sqrt(2 * (1 - u));
}

// Starts the samples from number `sample` on of the pixel (x, y).
inline void start_paths(const TileSettings& settings, const Film& film, int x, int y, std::uint32_t slot,
                        std::uint32_t sample, std::span<Path> paths) {
    const std::uint32_t seed = pixel_seed(x, y, settings.seed);
    for (std::size_t first = 0; first < paths.size(); first += kLanes) {
        const Words number = Words{0, 1, 2, 3, 4, 5, 6, 7} + (sample + static_cast<std::uint32_t>(first));
        const SamplePoint<Words> points{Words{} + seed, reverse_bits(number), Words{}};
        const PairOf<Floats> u = points.even_pair(1);
        const Floats across = (static_cast<float>(x) + 0.5f + tent(u.x)) / static_cast<float>(film.width);
        const Floats along = (static_cast<float>(y) + 0.5f + tent(u.y)) / static_cast<float>(film.height);
        const bool point = !(settings.lens.aperture_mm > 0);
        const LensRays rays =
            point ? LensRays{{}, settings.camera.toward(across, along)}
                  : through_lens(settings.lens, settings.camera, across, along, points.even_pair(kLensPair));
        for (std::size_t k = 0; k < std::min(kLanes, paths.size() - first); ++k) {
            Path& path = paths[first + k] = Path{};
            path.from_mm = point ? settings.camera.eye_mm
                                 : glm::vec3(rays.from_mm.x[k], rays.from_mm.y[k], rays.from_mm.z[k]);
            path.direction = {rays.direction.x[k], rays.direction.y[k], rays.direction.z[k]};
            path.sampler = Sampler({seed, points.reversed[k], 1});
            path.slot = slot;
        }
    }
}

}  // namespace tile_detail

/// Goes on sampling a tile of `film` until it is done, but no further than `until` samples of each pixel,
/// which is a multiple of kSamplesARound: how the samples are cut into calls does not change their sums.
/// `trace(paths, of_path)` follows a wavefront of paths; their slots are places in the tile's order, and
/// `of_path` takes the luminance of [path][group], where the film has several groups.
template <class Trace>
void sample_tile(const TileSettings& settings, const Film& film, const Tile& tile, int until,
                 TileSamples& sampled, Trace&& trace) {
    const std::size_t pixels = tile.pixels();
    std::vector<Path> wavefront(kMostPaths);
    std::vector<float> of_path = sampled.by_group.of_path(kMostPaths);
    const double floor = 0.1 * settings.card_cd_per_m2 + 1e-9;
    while (!sampled.is_done && sampled.samples < until) {
        const int end = std::min(sampled.samples + kSamplesARound, settings.most_samples);
        const std::size_t round = static_cast<std::size_t>(end - sampled.samples);
        const std::size_t pixels_at_once = kMostPaths / kSamplesARound;
        for (std::size_t first = 0; first < pixels; first += pixels_at_once) {
            const std::size_t last = std::min(first + pixels_at_once, pixels);
            const std::span<Path> paths(wavefront.data(), (last - first) * round);
            for (std::size_t p = first; p < last; ++p)
                tile_detail::start_paths(settings, film, tile.x(p), tile.y(p), static_cast<std::uint32_t>(p),
                                         static_cast<std::uint32_t>(sampled.samples),
                                         paths.subspan((p - first) * round, round));
            trace(paths, std::span(of_path));
            for (std::size_t i = 0; i < paths.size(); ++i)
                sampled.pixels[paths[i].slot].add(paths[i], i % round >= kSamplesARound / 2,
                                                  settings.colour_of(paths[i].sight.surface));
            sampled.by_group.add(paths, of_path);
        }
        sampled.samples = end;
        sampled.is_done = end >= settings.most_samples;
        if (sampled.samples < 2 * kSamplesARound) continue;
        double error = 0;
        for (const PixelSum& sum : sampled.pixels)
            error += sum.error(sampled.samples) / (sum.luminance / sampled.samples + floor);
        const double wanted = settings.wanted_error * static_cast<double>(pixels);
        if (error <= wanted && sampled.by_group.worst_error(sampled.samples, floor) <= wanted)
            sampled.is_done = true;
    }
}

/// The same at one go.
template <class Trace>
TileSamples sample_tile(const TileSettings& settings, const Film& film, const Tile& tile, Trace&& trace) {
    TileSamples sampled(tile, film.groups.size());
    sample_tile(settings, film, tile, settings.most_samples, sampled, trace);
    return sampled;
}

/// Writes all but the light of pixel `p` of a tile. Returns the pixel's place in the film.
inline std::size_t write_sight(const Tile& tile, const TileSamples& sampled, std::size_t p, Film& film) {
    const std::size_t at =
        static_cast<std::size_t>(tile.y(p)) * static_cast<std::size_t>(film.width) + tile.x(p);
    const PixelSum& sum = sampled.pixels[p];
    const double n = sampled.samples;
    film.error[at] = static_cast<float>(sum.error(sampled.samples));
    film.samples[at] = sampled.samples;
    film.features.depth_mm[at] = static_cast<float>(sum.depth_mm / n);
    film.features.normal[at] = glm::vec3(sum.normal / n);
    film.features.piece[at] = sum.piece;
    film.features.material[at] = sum.material;
    film.features.first_surface_share[at] =
        sum.luminance > 0 ? static_cast<float>(sum.first_surface / sum.luminance) : 0.0f;
    if (!film.guide.is_there) return at;
    const double half = std::max(1, second_half(sampled.samples));
    film.guide.half_cd_per_m2[at] = static_cast<float>(sum.half_luminance / half);
    film.guide.half_first_surface_cd_per_m2[at] = static_cast<float>(sum.half_first_surface / half);
    film.guide.reflectance[at] = glm::vec3(sum.reflectance / n);
    return at;
}

}  // namespace rakelight
