// A square of pixels, sampled until it is good enough. A tile decides from its own samples alone, and a tile
// cut by the edge of a row range is sampled whole: so pictures do not depend on how the work is split.
#pragma once

#include <pmmintrin.h>
#include <xmmintrin.h>

#include "renderer/camera.h"
#include "renderer/film.h"
#include "renderer/path.h"

namespace rakelight {

inline constexpr int kTileSize = 16;
inline constexpr int kSamplesARound = 16;

struct TileJob {
    Camera camera;
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
    std::int32_t piece = 0;
    std::int32_t material = 0;
};

// One uniform number to the offset of a tent filter one pixel wide each way.
inline float tent(float u) {
    return u < 0.5f ? std::sqrt(2 * u) - 1 : 1 - std::sqrt(2 * (1 - u));
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

    PathLight light;
    light.xyz.fill(glm::vec3(0));
    int samples = 0;
    const double floor = 0.1 * job.card_cd_per_m2 + 1e-9;
    while (samples < job.most_samples) {
        const int end = std::min(samples + kSamplesARound, job.most_samples);
        for (std::size_t p = 0; p < pixels; ++p) {
            const int x = left + static_cast<int>(p) % columns;
            const int y = top + static_cast<int>(p) / columns;
            const std::uint32_t seed = pixel_seed(x, y, job.seed);
            PixelSum& sum = sums[p];
            for (int i = samples; i < end; ++i) {
                Sampler sampler(seed, static_cast<std::uint32_t>(i));
                const glm::vec2 u = sampler.next();
                const glm::vec3 direction = job.camera.toward(
                    (static_cast<float>(x) + 0.5f + tent(u.x)) / static_cast<float>(film.width),
                    (static_cast<float>(y) + 0.5f + tent(u.y)) / static_cast<float>(film.height));
                FirstSight sight;
                light.first_surface_cd_per_m2 = 0;
                light.luminance_cd_per_m2 = 0;
                trace_path(stage, job.camera.eye_mm, direction, sampler, light, sight);
                for (std::size_t g = 0; g < groups; ++g) {
                    xyz[p * groups + g] += glm::dvec3(light.xyz[g]);
                    light.xyz[g] = glm::vec3(0);
                }
                const double luminance = light.luminance_cd_per_m2;
                sum.luminance += luminance;
                sum.luminance_squared += luminance * luminance;
                sum.first_surface += light.first_surface_cd_per_m2;
                sum.depth_mm += sight.distance_mm;
                sum.normal += glm::dvec3(sight.normal);
                if (i == 0) {
                    sum.piece = sight.piece;
                    sum.material = sight.material;
                }
            }
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
