#include "output/in_photograph/photographed_light.h"

#include <cmath>
#include <numbers>

#include "scene/surround/all_round.h"

namespace rakelight {
namespace {

constexpr int kWidth_px = 512;
constexpr double kPanel_lux = 200;  // of no matter to the picture: the sheet says how bright it is

glm::dvec3 direction(const MainLight& main) {
    const double right = glm::radians(main.right_deg), up = glm::radians(main.up_deg);
    return {std::sin(right) * std::cos(up), std::sin(up), std::cos(right) * std::cos(up)};
}

}  // namespace

Lighting photographed_light(const glm::dvec3& mean_rgb, const MainLight& main) {
    SurroundPicture picture;
    picture.width_px = kWidth_px, picture.height_px = kWidth_px / 2;
    picture.cut_off = true;
    const auto count =
        static_cast<std::size_t>(picture.width_px) * static_cast<std::size_t>(picture.height_px);
    const double y = double(luminance_of(glm::vec3(mean_rgb)));
    // Even light E / pi of a plane's; at most what is left of each colour when the main light is none.
    const glm::dvec3 colour =
        y > 0 ? glm::min(mean_rgb / y, glm::dvec3(1 / (1 - main.share))) : glm::dvec3(1);
    const glm::dvec3 even = (1 - main.share) * colour;
    picture.rgb.assign(count, glm::vec3(even / std::numbers::pi));
    const glm::dvec3 towards = direction(main);
    const double cosine = std::cos(glm::radians(main.across_deg / 2));
    std::vector<std::uint32_t> disc;
    double plane_sr = 0;  // of the disc, weighted by the cosine to the wall's normal
    for (int row = 0; row < picture.height_px; ++row)
        for (int column = 0; column < picture.width_px; ++column) {
            const glm::dvec3 d(pixel_direction(picture, column, row));
            if (glm::dot(d, towards) < cosine || d.z <= 0) continue;
            disc.push_back(static_cast<std::uint32_t>(row * picture.width_px + column));
            plane_sr += d.z * pixel_sr(picture, row);
        }
    if (plane_sr > 0)
        for (const std::uint32_t i : disc) picture.rgb[i] += glm::vec3((glm::dvec3(1) - even) / plane_sr);
    Lighting light;
    light.name = "as the photograph has it";
    light.all_round.emplace();
    light.all_round->name = light.all_round->group = light.name;
    light.all_round->picture = std::make_shared<const AllRound>(std::move(picture));
    light.all_round->lux = kPanel_lux;
    return light;
}

}  // namespace rakelight
