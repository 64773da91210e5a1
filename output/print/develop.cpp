#include "output/print/develop.h"

#include <tbb/parallel_for.h>

#include <glm/glm.hpp>

#include "output/print/exposure.h"
#include "output/print/eye_glare.h"
#include "output/print/linear_picture.h"
#include "output/print/tone.h"

namespace rakelight {

glm::dmat3 room_to_print(const Developing& how) {
    const Xyz white{how.light_white.x / how.light_white.y, 1, how.light_white.z / how.light_white.y};
    const Xyz print_white = linear_rgb_to_xyz({1, 1, 1});
    const double scale = kMiddleGrey / middle_luminance_cd_per_m2(how.ev100);
    glm::dmat3 matrix;
    for (int axis = 0; axis < 3; ++axis) {
        const Xyz unit{double(axis == 0), double(axis == 1), double(axis == 2)};
        const Xyz adapted = adapt(unit, white, print_white);
        const auto mix = [&](double full, double none) {
            return scale * (how.adaptation * full + (1 - how.adaptation) * none);
        };
        const LinearRgb rgb =
            xyz_to_linear_rgb({mix(adapted.x, unit.x), mix(adapted.y, unit.y), mix(adapted.z, unit.z)});
        matrix[axis] = {rgb.r, rgb.g, rgb.b};
    }
    return matrix;
}

Print develop(const Film& film, const Developing& how) {
    const glm::dmat3 matrix = room_to_print(how);
    const std::size_t width = static_cast<std::size_t>(film.width);
    LinearPicture picture{film.width, film.height, {}};
    for (auto& plane : picture.plane) plane.resize(film.pixel_count());
    std::vector<float> known(film.error.empty() ? 0 : film.pixel_count());
    tbb::parallel_for(std::size_t{0}, static_cast<std::size_t>(film.height), [&](std::size_t y) {
        for (std::size_t i = y * width; i < (y + 1) * width; ++i) {
            const glm::vec3 xyz = total_xyz(film, i);
            const glm::dvec3 rgb = matrix * glm::dvec3(xyz);
            if (!known.empty()) known[i] = known_share(xyz.y, film.error[i]);
            for (int c = 0; c < 3; ++c)
                picture.plane[static_cast<std::size_t>(c)][i] = static_cast<float>(rgb[c]);
        }
    });
    if (how.pixel_deg) spread_glare(picture, make_glare_kernel(*how.pixel_deg), known);

    Print print{film.width, film.height, std::vector<float>(3 * film.pixel_count())};
    tbb::parallel_for(std::size_t{0}, static_cast<std::size_t>(film.height), [&](std::size_t y) {
        for (std::size_t i = y * width; i < (y + 1) * width; ++i) {
            const EncodedSrgb e =
                encode(print_colour({picture.plane[0][i], picture.plane[1][i], picture.plane[2][i]}));
            print.rgb[3 * i] = static_cast<float>(e.r);
            print.rgb[3 * i + 1] = static_cast<float>(e.g);
            print.rgb[3 * i + 2] = static_cast<float>(e.b);
        }
    });
    return print;
}

}  // namespace rakelight
