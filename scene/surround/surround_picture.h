// A picture of light from all round: equirectangular, the middle of the picture straight ahead, its left and
// right edge behind, its upper edge the zenith. In the picture's own frame z is ahead, y up, and the right of
// the picture lies towards -x, as an eye sees it that looks along z.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <numbers>
#include <optional>
#include <vector>

namespace rakelight {

/// Twice as wide as high.
struct SurroundPicture {
    int width_px = 0, height_px = 0;
    std::vector<glm::vec3> rgb;  ///< linear light on the sRGB primaries, not negative; rows from the zenith
    /// Luminance, cd/m2, of red, green and blue of 1, where the file says it; else they are relative.
    std::optional<double> unit_cd_per_m2;
    /// Of whole numbers: bright things are cut off at white, so that it tells colour and direction only.
    bool cut_off = false;
};

/// Relative luminance of linear sRGB (IEC 61966-2-1).
inline float luminance_of(const glm::vec3& rgb) {
    return 0.2126f * rgb.x + 0.7152f * rgb.y + 0.0722f * rgb.z;
}

/// Sine of the altitude at a height in the picture, `y` in pixels from its upper edge.
inline double sine_of_altitude(const SurroundPicture& p, double y) {
    return std::cos(std::numbers::pi * y / p.height_px);
}

/// Solid angle of a pixel of a row, sr: exact.
inline double pixel_sr(const SurroundPicture& p, int row) {
    return 2 * std::numbers::pi / p.width_px * (sine_of_altitude(p, row) - sine_of_altitude(p, row + 1));
}

/// Unit direction, in the picture's frame, of a sine of altitude and `x` pixels from its left edge.
inline glm::vec3 direction_of(const SurroundPicture& p, double sine, double x) {
    const double turn = 2 * std::numbers::pi * (x / p.width_px - 0.5);
    const double level = std::sqrt(std::max(0.0, 1 - sine * sine));
    return glm::vec3(glm::dvec3(-level * std::sin(turn), sine, level * std::cos(turn)));
}

/// Unit direction of the middle of a pixel.
inline glm::vec3 pixel_direction(const SurroundPicture& p, int x, int y) {
    return direction_of(p, (sine_of_altitude(p, y) + sine_of_altitude(p, y + 1)) / 2, x + 0.5);
}

/// The pixel, counted by rows, in a unit direction of the picture's frame.
inline std::uint32_t pixel_towards(const SurroundPicture& p, const glm::vec3& direction) {
    constexpr float kPi = std::numbers::pi_v<float>;
    const float along = std::atan2(-direction.x, direction.z) * (0.5f / kPi) + 0.5f;
    const float down = std::acos(std::clamp(direction.y, -1.0f, 1.0f)) * (1 / kPi);
    const auto at = [](float share, int count) {
        return std::clamp(static_cast<int>(share * static_cast<float>(count)), 0, count - 1);
    };
    return static_cast<std::uint32_t>(at(down, p.height_px) * p.width_px + at(along, p.width_px));
}

}  // namespace rakelight
