#include "output/preview/figures.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "output/print/exposure.h"

namespace rakelight {

namespace {

// Sums in the order of the pixels, so that they round alike however rows are read.
struct Sums {
    std::vector<double> groups;
    double light = 0;
    double log_light = 0;
    double error = 0;
    double variance = 0;
    double samples = 0;
};

void add_light(Sums& sums, PictureFigures& figures, const Film& rows) {
    for (std::size_t i = 0; i < rows.pixel_count(); ++i) {
        const double y = rows.xyz[0][i].y;
        figures.least_cd_per_m2 = std::min(figures.least_cd_per_m2, y);
        figures.most_cd_per_m2 = std::max(figures.most_cd_per_m2, y);
        sums.light += y;
        sums.log_light += std::log(std::max(y, kDark_cd_per_m2));
        const double error = rows.error[i];
        sums.error += error;
        sums.variance += error * error;
    }
}

void add_samples(Sums& sums, PictureFigures& figures, const std::vector<std::int32_t>& numbers) {
    constexpr std::size_t kChannels = 3;  // of film_channels.h, the samples last
    for (std::size_t i = kChannels - 1; i < numbers.size(); i += kChannels) {
        figures.fewest_samples = std::min(figures.fewest_samples, numbers[i]);
        figures.most_samples = std::max(figures.most_samples, numbers[i]);
        sums.samples += numbers[i];
    }
}

Film empty_rows(const FilmSource& source, const RowRange& rows) {
    Film film;
    film.width = source.about.film.width;
    film.height = rows.end_row - rows.first_row;
    film.rows = {0, film.height};
    film.groups = {"all"};
    film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(0)));
    return film;
}

// `take` sees each group's light, packed.
Film sum_of_groups(const FilmSource& source, const RowRange& rows, const auto& take) {
    Film film = empty_rows(source, rows);
    const std::size_t groups = source.about.film.groups.size();
    for (std::size_t g = 0; g < groups; ++g) {
        const std::vector<float> light = source.reals(g, rows);
        for (std::size_t i = 0; i < film.pixel_count(); ++i)
            film.xyz[0][i] += glm::vec3(light[3 * i], light[3 * i + 1], light[3 * i + 2]);
        take(g, light);
    }
    film.error = source.reals(groups + 1, rows);  // behind the features
    return film;
}

}  // namespace

Film rows_of(const FilmSource& source, const RowRange& rows) {
    return sum_of_groups(source, rows, [](std::size_t, const std::vector<float>&) {});
}

Film guided_rows_of(const FilmSource& source, const RowRange& rows) {
    Film film = rows_of(source, rows);
    const std::size_t n = film.pixel_count(), groups = source.about.film.groups.size();
    const std::vector<float> sights = source.reals(groups, rows);     // as film_channels.h has them
    const std::vector<float> guide = source.reals(groups + 2, rows);  // behind features and error
    const std::vector<std::int32_t> numbers = source.numbers(rows);
    film.samples.resize(n);
    film.features = {std::vector<float>(n), std::vector<glm::vec3>(n), std::vector<std::int32_t>(n),
                     std::vector<std::int32_t>(n), std::vector<float>(n)};
    film.guide.is_there = true;
    for (auto* of : {&film.guide.half_cd_per_m2, &film.guide.half_first_surface_cd_per_m2,
                     &film.guide.half_indirect_cd_per_m2})
        of->resize(n);
    film.guide.indirect.resize(n);
    film.guide.reflectance.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        film.features.depth_mm[i] = sights[5 * i];
        film.features.normal[i] = {sights[5 * i + 1], sights[5 * i + 2], sights[5 * i + 3]};
        film.features.first_surface_share[i] = sights[5 * i + 4];
        film.features.piece[i] = numbers[3 * i];
        film.features.material[i] = numbers[3 * i + 1];
        film.samples[i] = numbers[3 * i + 2];
        const float* const own = &guide[9 * i];
        film.guide.half_cd_per_m2[i] = own[0];
        film.guide.half_first_surface_cd_per_m2[i] = own[1];
        film.guide.half_indirect_cd_per_m2[i] = own[2];
        film.guide.indirect[i] = {own[3], own[4], own[5]};
        film.guide.reflectance[i] = {own[6], own[7], own[8]};
    }
    return film;
}

PictureFigures figures_of(const FilmSource& source) {
    const Film& about = source.about.film;
    PictureFigures figures;
    figures.least_cd_per_m2 = std::numeric_limits<double>::infinity();
    figures.most_cd_per_m2 = -std::numeric_limits<double>::infinity();
    figures.fewest_samples = std::numeric_limits<int>::max();
    figures.most_samples = std::numeric_limits<int>::min();
    Sums sums;
    sums.groups.assign(about.groups.size(), 0);
    for (const RowRange& rows : bands_of(about.rows, about.width)) {
        const Film band = sum_of_groups(source, rows, [&](std::size_t g, const std::vector<float>& light) {
            for (std::size_t i = 1; i < light.size(); i += 3) sums.groups[g] += light[i];
        });
        add_light(sums, figures, band);
        add_samples(sums, figures, source.numbers(rows));
    }
    const double pixels = static_cast<double>(about.rows.end_row - about.rows.first_row) * about.width;
    for (const double sum : sums.groups) figures.group_mean_cd_per_m2.push_back(sum / pixels);
    figures.mean_cd_per_m2 = sums.light / pixels;
    figures.log_mean_cd_per_m2 = std::exp(sums.log_light / pixels);
    figures.mean_samples = sums.samples / pixels;
    figures.error_cd_per_m2 = sums.error / pixels;
    figures.error_of_mean_cd_per_m2 = std::sqrt(sums.variance) / pixels;
    return figures;
}

}  // namespace rakelight
