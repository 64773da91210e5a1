// A flat sheet as a camera without distortion sees it: the sheet is tilted about both its axes before a lens,
// with a shadow across it, grain, and a table round it.
#pragma once

#include <cmath>
#include <functional>
#include <numbers>

#include "materials/maths/hash.h"
#include "output/marks/byte_picture.h"
#include "output/marks/plane_fit.h"

namespace rakelight::test {

struct SheetShot {
    glm::ivec2 size_px{1600, 1200};
    double px_per_mm = 4;
    double tilt_deg = 15, lean_deg = 5;  ///< about the upright and the level axis
    double turn_deg = 0;                 ///< in its plane
    double grain = 0.01;                 ///< standard deviation of a pixel
    double shadow = 0.4;                 ///< of the light that is lost in it
    std::uint64_t seed = 1;
};

/// From millimetres off the sheet's upper left corner, y down, to pixels.
inline glm::dmat3 seen_by(const SheetShot& shot, const glm::dvec2& sheet_mm) {
    const auto rad = [](double deg) { return deg * std::numbers::pi / 180; };
    const double a = rad(shot.tilt_deg), b = rad(shot.lean_deg), t = rad(shot.turn_deg);
    const glm::dvec3 right(std::cos(a) * std::cos(t), std::sin(t) * std::cos(b), std::sin(a) * std::cos(t));
    const glm::dvec3 down(-std::sin(t) * std::cos(a), std::cos(t) * std::cos(b), std::sin(b) * std::cos(t));
    const double far = 1.6 * std::max(sheet_mm.x, sheet_mm.y), focal = shot.px_per_mm * far;
    const glm::dvec3 corner = glm::dvec3(0, 0, far) - 0.5 * sheet_mm.x * right - 0.5 * sheet_mm.y * down;
    const glm::dvec2 middle = 0.5 * glm::dvec2(shot.size_px);
    const auto column = [&](const glm::dvec3& v) {
        return glm::dvec3(focal * v.x + middle.x * v.z, focal * v.y + middle.y * v.z, v.z);
    };
    return {column(right), column(down), column(corner)};
}

/// Light across the picture: one side darker, and a soft shadow with a slanting edge.
inline double light_at(const SheetShot& shot, const glm::dvec2& px) {
    const double x = px.x / shot.size_px.x, y = px.y / shot.size_px.y;
    const double edge = std::clamp((x + 0.4 * y - 0.75) / 0.04, 0.0, 1.0);
    return (0.92 - 0.2 * y) * (1 - shot.shadow * edge);
}

/// `reflects(mm)`: red, green, blue of the sheet and of what lies round it, linear. Four samples a pixel.
inline BytePicture photographed(const SheetShot& shot, const glm::dmat3& to_px,
                                const std::function<glm::dvec3(const glm::dvec2&)>& reflects) {
    const glm::dmat3 to_mm = glm::inverse(to_px);
    BytePicture picture{shot.size_px, {}};
    Rng rng(shot.seed);
    for (int y = 0; y < shot.size_px.y; ++y)
        for (int x = 0; x < shot.size_px.x; ++x) {
            glm::dvec3 sum(0);
            for (int k = 0; k < 4; ++k)
                sum += 0.25 * reflects(through(to_mm, {x + 0.25 + 0.5 * (k % 2), y + 0.25 + 0.5 * (k / 2)}));
            const double light = light_at(shot, {x, y});
            const double noise = shot.grain * std::sqrt(-2 * std::log(1 - rng.unit())) *
                                 std::cos(2 * std::numbers::pi * rng.unit());
            for (int c = 0; c < 3; ++c) {
                const double seen = std::pow(std::clamp(light * sum[c], 0.0, 1.0), 1 / 2.2) + noise;
                picture.rgb.push_back(static_cast<std::uint8_t>(std::clamp(255 * seen + 0.5, 0.0, 255.0)));
            }
        }
    return picture;
}

}  // namespace rakelight::test
