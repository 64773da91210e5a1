// What a filter promises whoever prints: it takes grain away and nothing else. Films are made here, of known
// light and of noise from a generator, so that the truth is known.
#include "output/filter/filter.h"

#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <random>

#include "output/preview/figures.h"
#include "renderer/tile_samples.h"

namespace rakelight {
namespace {

constexpr int kSamples = 16;

/// What a pixel of a made film is.
struct Spot {
    float light = 100;    ///< cd/m2 of a white body there
    float colour = 0.5f;  ///< of the body
    float mirrored = 0;   ///< cd/m2
    float grain = 0.3f;   ///< standard deviation of a sample of the body, relative
    float indirect = 0;   ///< cd/m2 of a white body by light that other surfaces give; its grain is 1
    std::int32_t piece = 1;
};

Film blank(int width, int height) {
    Film film;
    film.width = width;
    film.height = height;
    film.rows = {0, height};
    film.groups = {"lamp"};
    const std::size_t n = film.pixel_count();
    film.guide.is_there = true;
    hold_rows(film, film.rows);
    film.samples.assign(n, kSamples);
    film.features.depth_mm.assign(n, 1000);
    film.features.normal.assign(n, {0, 0, 1});
    film.features.material.assign(n, 1);
    return film;
}

/// A film of 16 samples a pixel, each of the body's light times a random number with mean 1, gamma
/// distributed: skewed, never negative, as light is.
template <class At>
Film made(int width, int height, At&& at) {
    Film film = blank(width, height);
    std::mt19937 chance(20);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const Spot spot = at(x, y);
            const auto i = static_cast<std::size_t>(y * width + x);
            const double k = 1 / (spot.grain * spot.grain);
            std::gamma_distribution<double> sample(k, 1 / k), of_indirect(1, 1);
            double sum = 0, squares = 0, half = 0, indirect = 0, half_indirect = 0;
            for (int s = 0; s < kSamples; ++s) {
                const double other =
                    spot.indirect > 0 ? spot.indirect * spot.colour * of_indirect(chance) : 0;
                const double v = spot.light * spot.colour * sample(chance) + other;
                indirect += other;
                sum += v;
                squares += v * v;
                if (s >= kSamples / 2) half += v, half_indirect += other;
            }
            const double body = sum / kSamples, all = body + spot.mirrored;
            film.xyz[0][i] = glm::vec3(glm::dvec3(0.95, 1, 1.09) * all);
            film.error[i] = static_cast<float>(std::sqrt((squares / kSamples - body * body) / kSamples));
            film.features.first_surface_share[i] = all > 0 ? static_cast<float>(spot.mirrored / all) : 0.0f;
            film.features.piece[i] = spot.piece;
            film.guide.half_cd_per_m2[i] = static_cast<float>(half / (kSamples / 2) + spot.mirrored);
            film.guide.half_first_surface_cd_per_m2[i] = spot.mirrored;
            film.guide.half_indirect_cd_per_m2[i] = static_cast<float>(half_indirect / (kSamples / 2));
            film.guide.indirect[i] = glm::vec3(glm::dvec3(0.95, 1, 1.09) * (indirect / kSamples));
            film.guide.reflectance[i] = glm::vec3(spot.colour);
        }
    return film;
}

double mean_of(const Film& film, int left, int right) {
    double sum = 0;
    for (int y = 0; y < film.height; ++y)
        for (int x = left; x < right; ++x)
            sum += total_xyz(film, static_cast<std::size_t>(y * film.width + x)).y;
    return sum / film.height / (right - left);
}

double deviation_of(const Film& film) {
    const double mean = mean_of(film, 0, film.width);
    double sum = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) sum += std::pow(total_xyz(film, i).y - mean, 2);
    return std::sqrt(sum / static_cast<double>(film.pixel_count()));
}

TEST(Filter, GrainGoesAndTheMeanStays) {
    for (const auto& [grain, off] : {std::pair{0.1f, 0.001}, {0.3f, 0.001}, {1.0f, 0.003}}) {
        const Film film = made(128, 96, [&](int, int) { return Spot{.grain = grain}; });
        const Film calm = filtered(film);
        EXPECT_LT(deviation_of(calm), deviation_of(film) / 3) << grain;
        EXPECT_NEAR(mean_of(calm, 0, 128) / mean_of(film, 0, 128), 1, off) << grain;
    }
}

// Where colour changes at a joint, and where a shadow falls on one colour.
TEST(Filter, AStepStaysAStep) {
    const Film joint = made(96, 96, [](int x, int) {
        return Spot{.colour = x < 48 ? 0.1f : 0.8f, .grain = 0.1f, .piece = x < 48 ? 1 : 2};
    });
    const Film shadow =
        made(96, 96, [](int x, int) { return Spot{.light = x < 48 ? 25.f : 100.f, .grain = 0.1f}; });
    for (const auto& [film, dark, bright] : {std::tuple{&joint, 10.0, 80.0}, {&shadow, 12.5, 50.0}}) {
        const Film calm = filtered(*film);
        for (const int x : {0, 24, 46, 47}) EXPECT_NEAR(mean_of(calm, x, x + 1) / dark, 1, 0.02) << x;
        for (const int x : {48, 49, 72, 95}) EXPECT_NEAR(mean_of(calm, x, x + 1) / bright, 1, 0.02) << x;
    }
}

// Shadows as fine as pixels, of a lamp whose light is known well, under the grain of light from other
// surfaces: the grain goes, the shadows stay.
TEST(Filter, IndirectLightIsCalmedUnderFineShadows) {
    const auto lit = [](int x, int y) { return (x * 7 + y * 13 + x * y % 5) % 4 == 0 ? 20.f : 100.f; };
    const Film film =
        made(96, 96, [&](int x, int y) { return Spot{.light = lit(x, y), .grain = 0.02f, .indirect = 30}; });
    const auto error = [&](const Film& of) {
        double sum = 0;
        for (int y = 0; y < of.height; ++y)
            for (int x = 0; x < of.width; ++x)
                sum += std::pow(
                    total_xyz(of, static_cast<std::size_t>(y * of.width + x)).y - 0.5 * (lit(x, y) + 30.0),
                    2);
        return std::sqrt(sum / static_cast<double>(of.pixel_count()));
    };
    EXPECT_LT(error(filtered(film)), error(film) / 3);
}

// Glints of one pixel on rims: as bright as they were, and their neighbours no brighter.
TEST(Filter, NoGlintIsMadeOrLost) {
    const auto is_glint = [](int x, int y) { return x % 7 == 3 && y % 5 == 2; };
    const Film film = made(
        91, 60, [&](int x, int y) { return Spot{.mirrored = is_glint(x, y) ? 2000.f : 1.f, .grain = 0.1f}; });
    const Film calm = filtered(film);
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x)
            EXPECT_NEAR(total_xyz(calm, static_cast<std::size_t>(y * film.width + x)).y,
                        is_glint(x, y) ? 2050 : 51, 5)
                << x << " " << y;
}

TEST(Filter, EnergyStays) {
    const Film film = made(160, 120, [](int x, int y) {
        const bool lit = (x / 9 + y / 11) % 3 != 0;
        return Spot{.light = lit ? 100.f : 8.f,
                    .colour = 0.05f + 0.1f * static_cast<float>((x / 9 * 5 + y / 11 * 3) % 8),
                    .mirrored = static_cast<float>((x * y) % 13),
                    .grain = lit ? 0.3f : 1.5f,
                    .piece = 1 + x / 9 + 20 * (y / 11)};
    });
    EXPECT_NEAR(mean_of(filtered(film), 0, 160) / mean_of(film, 0, 160), 1, 0.003);
}

Film varied() {
    return made(150, 70, [](int x, int y) {
        return Spot{.light = 20.f + static_cast<float>(x),
                    .colour = y % 9 ? 0.4f : 0.1f,
                    .grain = 0.5f,
                    .piece = 1 + x / 10};
    });
}

TEST(Filter, SameBitsOnAnyNumberOfThreads) {
    const Film film = varied();
    const Film calm = filtered(film);
    const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
    EXPECT_EQ(filtered(film).xyz, calm.xyz);
}

// As rows are read for a print, with kFilterReach_px more on each side.
TEST(Filter, RowsAloneHaveTheBitsOfTheWhole) {
    const Film film = varied();
    const Film calm = filtered(film);
    const FilmSource source = source_of(film, {});
    for (const RowRange rows : {RowRange{0, 20}, {21, 34}, {33, 70}}) {
        const RowRange seen{std::max(0, rows.first_row - kFilterReach_px),
                            std::min(film.height, rows.end_row + kFilterReach_px)};
        const Film some = filtered(guided_rows_of(source, seen));
        for (int y = rows.first_row; y < rows.end_row; ++y)
            for (int x = 0; x < film.width; ++x)
                ASSERT_EQ(some.xyz[0][static_cast<std::size_t>((y - seen.first_row) * film.width + x)],
                          calm.xyz[0][static_cast<std::size_t>(y * film.width + x)])
                    << x << " " << y;
    }
}

TEST(Filter, WhatCannotBeFilteredStays) {
    Film few = varied(), old = varied();
    few.samples[77] = kFewestToFilter - 1;
    old.guide = {};
    for (const Film* film : {&few, &old}) {
        EXPECT_FALSE(can_be_filtered(*film));
        EXPECT_EQ(filtered(*film).xyz[0], film->xyz[0]);
    }
    EXPECT_TRUE(can_be_filtered(varied()));
}

TEST(Filter, BlackStaysBlack) {
    const Film calm = filtered(made(40, 40, [](int, int) { return Spot{.light = 0, .colour = 0}; }));
    for (const glm::vec3& xyz : calm.xyz[0]) EXPECT_EQ(xyz, glm::vec3(0));
}

TEST(Filter, HalvesOfARound) {
    for (const auto& [samples, second] :
         {std::pair{1, 0}, {8, 0}, {9, 1}, {16, 8}, {20, 8}, {32, 16}, {60, 28}})
        EXPECT_EQ(second_half(samples), second) << samples;
}

}  // namespace
}  // namespace rakelight
