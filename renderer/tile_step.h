// Adaptive sampling of a tile, in steps: a round of paths of each pixel of the blocks that need it. A tile
// decides from its own samples alone, and a tile cut by the edge of a row range is sampled whole: so pictures
// do not depend on how the work is split.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "renderer/tile_samples.h"

namespace rakelight {

namespace tile_detail {

// Starts the samples from number `sample` on of the pixel (x, y).
inline void start_paths(const TileSettings& settings, const Film& film, int x, int y, std::uint32_t slot,
                        std::uint32_t sample, std::span<Path> paths) {
    const std::uint32_t seed = pixel_seed(x, y, settings.seed);
    const float pixel = glm::length(settings.camera.right) / static_cast<float>(film.width);
    for (std::size_t first = 0; first < paths.size(); first += kLanes) {
        const Words number = Words{0, 1, 2, 3, 4, 5, 6, 7} + (sample + static_cast<std::uint32_t>(first));
        const SamplePoint<Words> points{Words{} + seed, reverse_bits(number), Words{}};
        const LensRays rays = eye_rays(settings.camera, settings.lens, film, x, y, points);
        for (std::size_t k = 0; k < std::min(kLanes, paths.size() - first); ++k) {
            Path& path = paths[first + k] = Path{};
            path.from_mm = path_detail::lane(rays.from_mm, k);
            path.direction = path_detail::lane(rays.direction, k);
            path.sampler = Sampler({seed, points.reversed[k], 1});
            path.slot = slot;
            if (!settings.footprints) continue;
            path.footprint = pixel * kFirstFootprint_px;
            path.shrinking = shrinking(number[k]);
        }
    }
}

// Steps of one tile, block by block. `trace(paths, of_path)` as of sample_tile.
template <class Trace>
class Steps {
  public:
    Steps(const TileSettings& settings, const Film& film, const Tile& tile, TileSamples& sampled,
          Trace& trace)
        : settings_(settings),
          film_(film),
          tile_(tile),
          sampled_(sampled),
          trace_(trace),
          groups_(sampled.by_group.groups()),
          wavefront_(kMostPaths),
          of_path_(kMostPaths * groups_),
          of_group_(kPixels * 2 * groups_),
          pixels_(tile.blocks()) {
        for (std::size_t p = 0; p < tile.pixels(); ++p)
            pixels_[tile.block(p)].push_back(static_cast<std::uint32_t>(p));
    }

    // A round of a block.
    void take(std::size_t b) {
        Block& block = sampled_.blocks[b];
        const int round = std::min(kSamplesARound, settings_.most_samples - block.samples);
        light_ = shaded_ = {};
        std::ranges::fill(of_group_, 0.0);
        trace_round(pixels_[b], block.samples, round);
        block.samples += round;
        add_up(pixels_[b], block, round);
    }

  private:
    static constexpr std::size_t kPixels = kBlockSize * kBlockSize;
    using Batches = std::array<std::array<double, 2>, kPixels>;  // luminance of [pixel of the block][half]

    void trace_round(std::span<const std::uint32_t> pixels, int before, int round) {
        constexpr std::size_t kAtOnce = kMostPaths / kSamplesARound;
        const auto each = static_cast<std::size_t>(round);
        for (std::size_t first = 0; first < pixels.size(); first += kAtOnce) {
            const auto some = pixels.subspan(first, std::min(kAtOnce, pixels.size() - first));
            const std::span<Path> paths(wavefront_.data(), some.size() * each);
            for (std::size_t i = 0; i < some.size(); ++i)
                start_paths(settings_, film_, tile_.x(some[i]), tile_.y(some[i]), some[i],
                            static_cast<std::uint32_t>(before), paths.subspan(i * each, each));
            trace_(paths, std::span(of_path_));
            for (std::size_t i = 0; i < paths.size(); ++i)
                take_in(paths[i], i, first + i / each, i % each / kSamplesABatch);
        }
    }

    // A finished path, number `i` of its wavefront, of this pixel of the block and half of the round.
    void take_in(const Path& path, std::size_t i, std::size_t pixel, std::size_t half) {
        sampled_.pixels[path.slot].add(path, half > 0, settings_.colour_of(path.sight.surface));
        const auto y = static_cast<double>(path.luminance_cd_per_m2);
        light_[pixel][half] += y;
        shaded_[pixel][half] += std::min(y, settings_.most_counted_cd_per_m2());
        for (std::size_t g = 0; g < groups_; ++g)
            of_group_[(2 * pixel + half) * groups_ + g] +=
                static_cast<double>(std::exchange(of_path_[i * groups_ + g], 0.0f));
    }

    // The batches of a round.
    void add_up(std::span<const std::uint32_t> pixels, Block& block, int round) {
        block.square_error = 0;
        for (std::size_t i = 0; i < pixels.size(); ++i) {
            PixelSum& sum = sampled_.pixels[pixels[i]];
            for (std::size_t half = 0; half < 2; ++half) {
                const int n = std::clamp(round - static_cast<int>(half) * kSamplesABatch, 0, kSamplesABatch);
                if (n == 0) continue;
                sum.light.add(light_[i][half], n);
                sum.shaded.add(shaded_[i][half], n);
                for (std::size_t g = 0; g < groups_; ++g)
                    sampled_.by_group.add(pixels[i], g, of_group_[(2 * i + half) * groups_ + g], n);
            }
            const double light = sum.shaded.sum / block.samples + settings_.floor_cd_per_m2();
            block.square_error +=
                sum.shaded.variance(block.samples) / (light * light) / static_cast<double>(pixels.size());
        }
    }

    const TileSettings& settings_;
    const Film& film_;
    const Tile& tile_;
    TileSamples& sampled_;
    Trace& trace_;
    std::size_t groups_;
    std::vector<Path> wavefront_;
    std::vector<float> of_path_;
    std::vector<double> of_group_;                    // [pixel of the block][half][group]
    std::vector<std::vector<std::uint32_t>> pixels_;  // [block]
    Batches light_{}, shaded_{};
};

// Whether a tile is fine enough.
inline bool is_fine(const TileSettings& settings, const Tile& tile, const TileSamples& sampled) {
    const double floor = settings.floor_cd_per_m2();
    const double wanted = settings.wanted_error * static_cast<double>(tile.pixels());
    const auto samples_of = [&](std::size_t p) { return sampled.blocks[tile.block(p)].samples; };
    double error = 0;
    for (std::size_t p = 0; p < tile.pixels(); ++p) {
        const BatchSums& light = sampled.pixels[p].light;
        error += light.error(samples_of(p)) / (light.sum / samples_of(p) + floor);
    }
    return error <= wanted && sampled.by_group.worst_error(samples_of, floor) <= wanted;
}

}  // namespace tile_detail

/// Goes on sampling a tile of `film` until it is done, but no further than `until` samples of each pixel,
/// which is a multiple of kSamplesARound: how the samples are cut into calls does not change their sums.
/// `trace(paths, of_path)` follows a wavefront of paths; their slots are places in the tile's order, and
/// `of_path` takes the luminance of [path][group], where the film has several groups. `evenly`: all blocks
/// are sampled alike.
template <class Trace>
void sample_tile(const TileSettings& settings, const Film& film, const Tile& tile, int until,
                 TileSamples& sampled, Trace&& trace, bool evenly = false) {
    if (sampled.is_done || sampled.samples >= until) return;
    tile_detail::Steps steps(settings, film, tile, sampled, trace);
    while (!sampled.is_done && sampled.samples < until) {
        std::vector<bool> chosen(sampled.blocks.size(), true);
        if (!evenly && settings.wanted_error > 0)
            chosen = blocks_of_next_step(sampled.blocks, tile.block_columns(), sampled.samples);
        for (std::size_t b = 0; b < chosen.size(); ++b)
            if (chosen[b]) steps.take(b);
        sampled.samples = std::min(sampled.samples + kSamplesARound, settings.most_samples);
        sampled.is_done = sampled.samples >= settings.most_samples;
        if (sampled.samples >= 2 * kSamplesARound && tile_detail::is_fine(settings, tile, sampled))
            sampled.is_done = true;
    }
}

}  // namespace rakelight
