// A patch of a picture of light all round: shines from so far away that it lies in the same direction from
// everywhere. Its place in the pose stands for the middle of it, as if on a ball of 10 km.
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>

#include "scene/light/shapes/emitter_pose.h"
#include "scene/surround/surround_light.h"

namespace rakelight {

/// Where the ball of all round is taken to be.
inline constexpr float kSurroundFar_mm = 1e7f;

struct SurroundPart {
    static constexpr bool kOneSided = false;
    std::shared_ptr<const SurroundLight> light;
    std::uint32_t patch = 0;
    friend bool operator==(const SurroundPart&, const SurroundPart&) = default;

    const SurroundPatch& of_picture() const { return light->all->patches()[patch]; }
};

/// Area on the ball.
inline float area_mm2(const SurroundPart& s) {
    return static_cast<float>(s.of_picture().solid_angle_sr) * kSurroundFar_mm * kSurroundFar_mm;
}

/// Radius of the ball round its middle that holds it.
inline float reach_mm(const SurroundPart& s) {
    return 2 * kSurroundFar_mm *
           std::sin(static_cast<float>(std::min(s.of_picture().reach_rad, 3.14159)) / 2);
}

/// Seen alike from everywhere.
inline float projected_mm2(const SurroundPart& s, const glm::vec3&) {
    return area_mm2(s);
}

/// No lamp is one.
inline double even_candela(const SurroundPart&, double) {
    return 0;
}

/// A direction to the patch, by luminance; `at_mm.x` is the number of the pixel.
inline ShapeSample sample(const SurroundPart& s, const EmitterPose&, const glm::vec3&, const glm::vec2& u) {
    const SampledPixel one = s.light->all->sample(s.patch, u);
    ShapeSample r;
    r.direction = s.light->to_room(one.direction);
    r.distance_mm = kSurroundFar_mm;
    r.pdf = s.light->all->pdf(s.patch, one.pixel);
    r.at_mm.x = static_cast<float>(one.pixel);
    return r;
}

/// Density per steradian with which `sample` gives a direction that meets the patch.
inline float pdf(const SurroundPart& s, const EmitterPose&, const glm::vec3&, const glm::vec3& direction,
                 float) {
    return s.light->all->pdf(s.patch, s.light->pixel(direction));
}

/// Whether a ray goes to the patch; `at_mm.x` is the number of the pixel.
inline ShapeHit intersect(const SurroundPart& s, const EmitterPose&, const glm::vec3&,
                          const glm::vec3& direction) {
    const std::uint32_t pixel = s.light->pixel(direction);
    if (s.light->all->patch_of(pixel) != s.patch) return {};
    return {kSurroundFar_mm, {static_cast<float>(pixel), 0}};
}

}  // namespace rakelight
