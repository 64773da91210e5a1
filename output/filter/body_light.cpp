#include "output/filter/body_light.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "renderer/tile_samples.h"

namespace rakelight::filter {

namespace {

constexpr int kAround_px = 2;          // of the mean of squares
constexpr float kLeastColour = 0.01f;  // added, so that black things divide nothing by 0

// Light of a body by all samples, XYZ, and its luminance by the second half alone, cd/m2.
struct OfLayer {
    glm::vec3 xyz;
    float second;
};

OfLayer of_layer(const Film& film, Layer layer, std::size_t i) {
    const FilterGuide& guide = film.guide;
    if (layer == Layer::indirect) return {guide.indirect[i], guide.half_indirect_cd_per_m2[i]};
    const glm::vec3 body = total_xyz(film, i) * (1 - film.features.first_surface_share[i]);
    return {max(body - guide.indirect[i], glm::vec3(0)),
            std::max(0.0f, guide.half_cd_per_m2[i] - guide.half_first_surface_cd_per_m2[i] -
                               guide.half_indirect_cd_per_m2[i])};
}

void fill(BodyLight& light, const Film& film, Layer layer, std::size_t i, int x, int y) {
    const auto [body, second] = of_layer(film, layer, i);
    const glm::vec3 colour = film.guide.reflectance[i] + kLeastColour;
    for (std::size_t c = 0; c < 3; ++c) {
        const auto axis = static_cast<glm::length_t>(c);
        light.xyz[c].at(x, y) = body[axis] / colour[axis];
        light.colour[c].at(x, y) = colour[axis];
    }
    const auto all = static_cast<float>(film.samples[i]);
    const auto in_second = static_cast<float>(second_half(film.samples[i]));
    const float first = std::max(0.0f, (body.y * all - second * in_second) / (all - in_second));
    light.piece.at(x, y) = film.features.piece[i] > 0 ? 1 : 0;
    light.first.at(x, y) = first / colour.y;
    light.second.at(x, y) = second / colour.y;
    const glm::vec3& normal = film.features.normal[i];
    light.sight[0].at(x, y) = normal.x / 0.1f;
    light.sight[1].at(x, y) = normal.y / 0.1f;
    light.sight[2].at(x, y) = normal.z / 0.1f;
    light.sight[3].at(x, y) = film.features.depth_mm[i] / 2;
}

// Variance of a half-film's luminance: half the squared difference of the halves, its own and the mean of
// those around it, of one light.
void vary(BodyLight& light, int y) {
    const auto square = [&](int x, int row) {
        const float apart = light.first.at(x, row) - light.second.at(x, row);
        return 0.5f * apart * apart;
    };
    for (int x = 0; x < light.width; ++x) {
        float sum = 0, count = 0;
        for (int dy = -kAround_px; dy <= kAround_px; ++dy)
            for (int dx = -kAround_px; dx <= kAround_px; ++dx)
                if (light.colour[1].at(x + dx, y + dy) > 0) sum += square(x + dx, y + dy), ++count;
        light.variance.at(x, y) = 0.5f * (square(x, y) + sum / count);
    }
}

}  // namespace

BodyLight body_light(const Film& film, Layer layer) {
    BodyLight light(film.width, film.height);
    tbb::parallel_for(0, film.height, [&](int y) {
        for (int x = 0; x < film.width; ++x)
            fill(light, film, layer,
                 static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                     static_cast<std::size_t>(x),
                 x, y);
    });
    tbb::parallel_for(0, film.height, [&](int y) { vary(light, y); });
    return light;
}

}  // namespace rakelight::filter
