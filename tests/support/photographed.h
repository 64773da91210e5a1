// A photograph of a picture: its film seen through a known homography by a simulated camera (8 bits, usually
// sRGB), recoloured and noised by known amounts; a 24-patch chart may stand beside it.
#pragma once

#include <OpenImageIO/imageio.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <glm/glm.hpp>
#include <map>
#include <numbers>
#include <optional>
#include <random>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/photograph/chart24.h"
#include "output/compare/homography.h"
#include "renderer/film.h"

namespace rakelight::test {

struct ByCamera {
    int width = 0, height = 0;
    glm::dmat3 to_photo{1};                       ///< from the picture's pixels
    double exposure = 1;                          ///< times the picture over its white
    glm::dvec3 balance{1};                        ///< of the linear channels
    std::map<std::int32_t, glm::dvec3> recolour;  ///< factor on linear channels by Features::material
    double noise = 0;                             ///< relative standard deviation
    Xyz light_white{0.9505, 1, 1.089};            ///< Y: illuminance in lux
    glm::dmat3 camera{1};                         ///< from linear sRGB to its channels
    double contrast = 0;                          ///< of a tone curve steeper in the middle than that of sRGB
    std::optional<std::array<glm::dvec2, 4>> chart;  ///< in the photograph, lit as the panel is by D65
};

/// A place of the chart, (0, 0) to (1, 1), as linear channels; a black frame between the patches.
inline glm::dvec3 chart_rgb(const glm::dvec2& on_chart) {
    static const TristimulusWeights d65 = tristimulus_weights(*find_illuminant("D65"));
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        const glm::dvec2 off = glm::abs(on_chart - patch_middle(i));
        if (2 * off.x > patch_side().x || 2 * off.y > patch_side().y) continue;
        const auto xyz = integrate(d65, chart24()[i].reflectance);
        const LinearRgb c = xyz_to_linear_rgb({xyz[0], xyz[1], xyz[2]});
        return {c.r, c.g, c.b};
    }
    return glm::dvec3(0.04);
}

/// Linear channels of a pixel of the film over a white in its light, adapted to D65.
inline glm::dvec3 picture_rgb(const Film& film, std::size_t i, const Xyz& light) {
    const glm::dvec3 xyz = glm::dvec3(total_xyz(film, i)) * (std::numbers::pi / light.y);
    const LinearRgb c = xyz_to_linear_rgb(adapt(
        {xyz.x, xyz.y, xyz.z}, {light.x / light.y, 1, light.z / light.y}, linear_rgb_to_xyz({1, 1, 1})));
    return {c.r, c.g, c.b};
}

/// Writes it as a file, by its extension. Every pixel of the photograph is the mean of 16 points.
inline void photograph(const std::filesystem::path& path, const Film& film, const ByCamera& by) {
    const glm::dmat3 to_picture = glm::inverse(by.to_photo);
    const Corners square{glm::dvec2(0), {1, 0}, {1, 1}, {0, 1}};
    const glm::dmat3 to_chart = homography(by.chart.value_or(square), square);
    const auto on_chart = [](const glm::dvec2& p) {
        return p.x > -0.03 && p.y > -0.05 && p.x < 1.03 && p.y < 1.05;
    };
    std::mt19937 engine(3);
    std::normal_distribution<double> normal;
    std::vector<std::uint8_t> bytes;
    for (int y = 0; y < by.height; ++y)
        for (int x = 0; x < by.width; ++x) {
            glm::dvec3 sum(0);
            for (int k = 0; k < 16; ++k) {
                const glm::dvec3 seen(x + (k % 4 + 0.5) / 4, y + (k / 4 + 0.5) / 4, 1);
                if (const glm::dvec3 c = to_chart * seen; by.chart && on_chart(glm::dvec2(c) / c.z)) {
                    sum += chart_rgb(glm::dvec2(c) / c.z);
                    continue;
                }
                const glm::dvec3 p = to_picture * seen;
                const glm::ivec2 at(glm::floor(glm::dvec2(p) / p.z));
                if (at.x < 0 || at.y < 0 || at.x >= film.width || at.y >= film.height) {
                    sum += 0.3;  // a wall
                    continue;
                }
                const auto i = static_cast<std::size_t>(at.y) * static_cast<std::size_t>(film.width) +
                               static_cast<std::size_t>(at.x);
                glm::dvec3 rgb = picture_rgb(film, i, by.light_white);
                if (const auto changed = by.recolour.find(film.features.material[i]);
                    changed != by.recolour.end())
                    rgb *= changed->second;
                sum += rgb;
            }
            sum = by.exposure / 16 * by.balance * (by.camera * sum);
            for (int c = 0; c < 3; ++c) sum[c] *= 1 + by.noise * normal(engine);
            EncodedSrgb e = encode({sum.r, sum.g, sum.b});
            for (double* v : {&e.r, &e.g, &e.b}) {
                *v = std::clamp(*v, 0.0, 1.0);
                *v += by.contrast * *v * (1 - *v) * (2 * *v - 1);
            }
            for (const std::uint8_t byte : to_bytes(e)) bytes.push_back(byte);
        }
    OIIO::ImageSpec spec(by.width, by.height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("CompressionQuality", 95);
    const auto out = OIIO::ImageOutput::create(path.string());
    out->open(path.string(), spec);
    out->write_image(OIIO::TypeDesc::UINT8, bytes.data());
    out->close();
}

}  // namespace rakelight::test
