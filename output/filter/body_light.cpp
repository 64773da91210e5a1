#include "output/filter/body_light.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "renderer/tile_samples.h"

namespace rakelight::filter {

namespace {

constexpr float kLeastColour = 0.01f;  // added, so that black things divide nothing by 0

// Variance of a half-film's luminance: the mean of two estimates. By the samples of the pixel, which knows
// nothing of how evenly they are spread; by the difference of its halves, which does but is two samples only.
float variance(float first, float second, float standard_error) {
    const float apart = first - second;
    return 0.25f * apart * apart + standard_error * standard_error;
}

void fill(BodyLight& light, const Film& film, std::size_t i, int x, int y) {
    const float share = film.features.first_surface_share[i];
    const glm::vec3 body = total_xyz(film, i) * (1 - share);
    const glm::vec3 colour = film.guide.reflectance[i] + kLeastColour;
    for (std::size_t c = 0; c < 3; ++c) {
        const auto axis = static_cast<glm::length_t>(c);
        light.xyz[c].at(x, y) = body[axis] / colour[axis];
        light.colour[c].at(x, y) = colour[axis];
    }
    const auto all = static_cast<float>(film.samples[i]);
    const auto in_second = static_cast<float>(second_half(film.samples[i]));
    const float second =
        std::max(0.0f, film.guide.half_cd_per_m2[i] - film.guide.half_first_surface_cd_per_m2[i]);
    const float first = std::max(0.0f, (body.y * all - second * in_second) / (all - in_second));
    light.first.at(x, y) = first / colour.y;
    light.second.at(x, y) = second / colour.y;
    light.variance.at(x, y) = variance(first, second, film.error[i] * (1 - share)) / (colour.y * colour.y);
    const glm::vec3& normal = film.features.normal[i];
    light.sight[0].at(x, y) = normal.x / 0.1f;
    light.sight[1].at(x, y) = normal.y / 0.1f;
    light.sight[2].at(x, y) = normal.z / 0.1f;
    light.sight[3].at(x, y) = film.features.depth_mm[i] / 2;
}

}  // namespace

BodyLight body_light(const Film& film) {
    BodyLight light(film.width, film.height);
    tbb::parallel_for(0, film.height, [&](int y) {
        for (int x = 0; x < film.width; ++x)
            fill(light, film,
                 static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                     static_cast<std::size_t>(x),
                 x, y);
    });
    return light;
}

}  // namespace rakelight::filter
