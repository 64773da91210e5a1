// Light from all round as it is put round a room: a picture, turned, and how bright it is.
#pragma once

#include <memory>

#include "materials/colour/primary_lights.h"
#include "scene/surround/all_round.h"

namespace rakelight {

/// Directions are of the room: the middle of a picture that is not turned lies straight out of the panel's
/// wall.
struct SurroundLight {
    std::shared_ptr<const AllRound> all;
    float turn_cosine = 1, turn_sine = 0;  ///< clockwise, seen from above
    float unit_cd_per_m2 = 1;              ///< luminance of red, green and blue of 1
    PrimaryWeights primaries;

    /// A direction of the room in the picture's frame, and back.
    glm::vec3 to_picture(const glm::vec3& d) const {
        return {d.x * turn_cosine + d.z * turn_sine, d.y, d.z * turn_cosine - d.x * turn_sine};
    }
    glm::vec3 to_room(const glm::vec3& d) const {
        return {d.x * turn_cosine - d.z * turn_sine, d.y, d.z * turn_cosine + d.x * turn_sine};
    }
    std::uint32_t pixel(const glm::vec3& direction) const {
        return pixel_towards(all->picture(), to_picture(direction));
    }
    float cd_per_m2(std::uint32_t pixel_number) const {
        return unit_cd_per_m2 * all->luminance(pixel_number);
    }

    /// Colour of a pixel; of a black one white.
    TristimulusWeights weights(std::uint32_t pixel_number) const {
        const glm::vec3& rgb = all->picture().rgb[pixel_number];
        if (!(luminance_of(rgb) > 0)) return weights_of_rgb(primaries, {1, 1, 1});
        return weights_of_rgb(primaries, {rgb.x, rgb.y, rgb.z});
    }
};

}  // namespace rakelight
