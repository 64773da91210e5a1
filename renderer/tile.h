// A square of pixels, sampled until it is good enough. A tile decides from its own samples alone, and a tile
// cut by the edge of a row range is sampled whole: so pictures do not depend on how the work is split.
#pragma once

#include <pmmintrin.h>
#include <xmmintrin.h>

#include "renderer/camera.h"
#include "renderer/film.h"
#include "renderer/lens.h"
#include "renderer/path.h"

namespace rakelight {

inline constexpr int kTileSize = 16;
inline constexpr int kSamplesARound = 16;

struct TileJob {
    Camera camera;
    Lens lens;
    std::uint32_t seed = 0;
    int most_samples = 512;
    double wanted_error = 0.02;
    double card_cd_per_m2 =
        0;  ///< luminance of a grey card on the panel: what a dark pixel is judged against
};

/// Flushes denormal numbers to zero on this thread while it lives: Embree asks for it, and they cost time.
class QuietDenormals {
  public:
    QuietDenormals() : before_(_mm_getcsr()) {
        _MM_SET_FLUSH_ZERO_MODE(_MM_FLUSH_ZERO_ON);
        _MM_SET_DENORMALS_ZERO_MODE(_MM_DENORMALS_ZERO_ON);
    }
    ~QuietDenormals() { _mm_setcsr(before_); }
    QuietDenormals(const QuietDenormals&) = delete;
    QuietDenormals& operator=(const QuietDenormals&) = delete;

  private:
    unsigned before_;
};

namespace tile_detail {

struct PixelSum {
    double luminance = 0;
    double luminance_squared = 0;
    double first_surface = 0;
    double depth_mm = 0;
    glm::dvec3 normal{};
    std::int32_t piece = -1;  // of the first sample
    std::int32_t material = 0;

    void add(const Path& path) {
        const double y = path.luminance_cd_per_m2;
        luminance += y;
        luminance_squared += y * y;
        first_surface += path.first_surface_cd_per_m2;
        depth_mm += path.sight.distance_mm;
        normal += glm::dvec3(path.sight.normal);
        if (piece < 0) {
            piece = path.sight.piece;
            material = path.sight.material;
        }
    }
};

// Uniform numbers to offsets of a tent filter one pixel wide each way.
inline Floats tent(const Floats& u) {
    return u < 0.5f ? root(2 * u) - 1 : 1 - root(2 * (1 - u));
}

// Starts the samples from number `sample` on of the pixel (x, y).
inline void start_paths(const TileJob& job, const Film& film, int x, int y, std::uint32_t slot,
                        std::uint32_t sample, std::span<Path> paths) {
    const std::uint32_t seed = pixel_seed(x, y, job.seed);
    for (std::size_t first = 0; first < paths.size(); first += kLanes) {
        const Words number = Words{0, 1, 2, 3, 4, 5, 6, 7} + (sample + static_cast<std::uint32_t>(first));
        const SamplePoint<Words> points{Words{} + seed, reverse_bits(number), Words{}};
        const PairOf<Floats> u = points.even_pair(1);
        const Floats across = (static_cast<float>(x) + 0.5f + tent(u.x)) / static_cast<float>(film.width);
        const Floats along = (static_cast<float>(y) + 0.5f + tent(u.y)) / static_cast<float>(film.height);
        const bool point = !(job.lens.aperture_mm > 0);
        const LensRays rays =
            point ? LensRays{{}, job.camera.toward(across, along)}
                  : through_lens(job.lens, job.camera, across, along, points.even_pair(kLensPair));
        for (std::size_t k = 0; k < std::min(kLanes, paths.size() - first); ++k) {
            Path& path = paths[first + k] = Path{};
            path.from_mm = point ? job.camera.eye_mm
                                 : glm::vec3(rays.from_mm.x[k], rays.from_mm.y[k], rays.from_mm.z[k]);
            path.direction = {rays.direction.x[k], rays.direction.y[k], rays.direction.z[k]};
            path.sampler = Sampler({seed, points.reversed[k], 1});
            path.slot = slot;
        }
    }
}

}  // namespace tile_detail

/// Samples the tile whose upper left pixel is (left, top) and writes those of its rows that lie in
/// `film.rows`.
template <class RayCaster>
void render_tile(const Stage<RayCaster>& stage, const TileJob& job, int left, int top, Film& film) {
    using namespace tile_detail;
    const int right = std::min(left + kTileSize, film.width);
    const int bottom = std::min(top + kTileSize, film.height);
    const int columns = right - left;
    const std::size_t pixels = static_cast<std::size_t>(columns * (bottom - top));
    const std::size_t groups = film.groups.size();
    std::vector<PixelSum> sums(pixels);
    std::vector<glm::dvec3> xyz(pixels * groups, glm::dvec3(0));
    std::vector<double> mirrored(film.mirrored.empty() ? 0 : pixels * groups, 0.0);

    std::vector<Path> company(kMostPaths);
    int samples = 0;
    const double floor = 0.1 * job.card_cd_per_m2 + 1e-9;
    while (samples < job.most_samples) {
        const int end = std::min(samples + kSamplesARound, job.most_samples);
        const std::size_t round = static_cast<std::size_t>(end - samples);
        const std::size_t pixels_at_once = kMostPaths / kSamplesARound;
        for (std::size_t first = 0; first < pixels; first += pixels_at_once) {
            const std::size_t last = std::min(first + pixels_at_once, pixels);
            const std::span<Path> paths(company.data(), (last - first) * round);
            for (std::size_t p = first; p < last; ++p)
                start_paths(job, film, left + static_cast<int>(p) % columns,
                            top + static_cast<int>(p) / columns, static_cast<std::uint32_t>(p),
                            static_cast<std::uint32_t>(samples), paths.subspan((p - first) * round, round));
            trace_paths(stage, paths, PathSums{xyz, mirrored});
            for (const Path& path : paths) sums[path.slot].add(path);
        }
        samples = end;
        if (samples < 2 * kSamplesARound) continue;
        double error = 0;
        for (const PixelSum& sum : sums) {
            const double mean = sum.luminance / samples;
            const double variance = std::max(0.0, sum.luminance_squared / samples - mean * mean) / samples;
            error += std::sqrt(variance) / (mean + floor);
        }
        if (error <= job.wanted_error * static_cast<double>(pixels)) break;
    }

    for (std::size_t p = 0; p < pixels; ++p) {
        const int x = left + static_cast<int>(p) % columns;
        const int y = top + static_cast<int>(p) / columns;
        if (y < film.rows.first_row || y >= film.rows.end_row) continue;
        const std::size_t at = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) + x;
        const PixelSum& sum = sums[p];
        const double n = samples;
        for (std::size_t g = 0; g < groups; ++g) film.xyz[g][at] = glm::vec3(xyz[p * groups + g] / n);
        for (std::size_t g = 0; g < film.mirrored.size(); ++g)
            film.mirrored[g][at] = static_cast<float>(mirrored[p * groups + g] / n);
        const double mean = sum.luminance / n;
        film.error[at] =
            static_cast<float>(std::sqrt(std::max(0.0, sum.luminance_squared / n - mean * mean) / n));
        film.samples[at] = samples;
        film.features.depth_mm[at] = static_cast<float>(sum.depth_mm / n);
        film.features.normal[at] = glm::vec3(sum.normal / n);
        film.features.piece[at] = sum.piece;
        film.features.material[at] = sum.material;
        film.features.first_surface_share[at] =
            sum.luminance > 0 ? static_cast<float>(sum.first_surface / sum.luminance) : 0.0f;
    }
}

}  // namespace rakelight
