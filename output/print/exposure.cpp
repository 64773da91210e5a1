#include "output/print/exposure.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

namespace {
constexpr double kMeter = 12.5;  // K of a reflected-light meter, ISO 2720:1974
constexpr double kSpeed = 100;
}  // namespace

double middle_luminance_cd_per_m2(double ev100) {
    return std::exp2(ev100) * kMeter / kSpeed;
}

double ev100_of(double cd_per_m2) {
    return std::log2(cd_per_m2 * kSpeed / kMeter);
}

double card_luminance_cd_per_m2(double lux) {
    return kMiddleGrey * lux / std::numbers::pi;
}

double eye_luminance_cd_per_m2(const Film& film) {
    const std::size_t width = static_cast<std::size_t>(film.width);
    const std::size_t begin = static_cast<std::size_t>(film.rows.first_row) * width;
    const std::size_t end = static_cast<std::size_t>(film.rows.end_row) * width;
    if (begin >= end) return kDark_cd_per_m2;
    double sum = 0;
    for (std::size_t i = begin; i < end; ++i)
        sum += std::log(std::max<double>(total_xyz(film, i).y, kDark_cd_per_m2));
    return std::exp(sum / static_cast<double>(end - begin));
}

double adaptation_degree(double cd_per_m2) {
    return 1 - std::exp(-(cd_per_m2 + 42) / 92) / 3.6;
}

}  // namespace rakelight
