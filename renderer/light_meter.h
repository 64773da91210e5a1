// Illuminance on the panel, as a meter held against it would read, interreflection of the room included.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "renderer/bvh.h"
#include "scene/world/world.h"

namespace rakelight {

/// Light that falls on a small plane facing `normal` at `at_mm` (world coordinates): for each lamp group XYZ
/// with Y in lux. The same to the bit on any number of threads, deterministic in
/// `seed`; relative standard error about 1 % at the default number of paths.
std::vector<glm::dvec3> illuminance_xyz(const World& world, const Bvh& bvh, std::span<const Emitter> lamps,
                                        const glm::vec3& at_mm, const glm::vec3& normal, int paths = 4096,
                                        std::uint32_t seed = 1);

/// Light on a small plane, told apart by how it comes.
struct LightApart {
    std::vector<double> direct_lux;  ///< straight from each of the lamps, what stands before them left out
    double indirect_lux = 0;         ///< what all else sends there
};

/// Light on a small plane facing `normal` at `at_mm` (world coordinates). The same to the bit on any number
/// of threads; relative standard error about half a percent.
LightApart light_apart(const World& world, const Bvh& bvh, std::span<const Emitter> lamps,
                       const glm::vec3& at_mm, const glm::vec3& normal, int paths = 16384);

/// Mean over a grid of 3 x 3 places of the panel, 20 mm in front of its faces.
std::vector<glm::dvec3> panel_illuminance_xyz(const World& world, const Bvh& bvh,
                                              std::span<const Emitter> lamps);

/// Luminance of a matte 18 % grey card on the panel under lamp groups of so much illuminance, cd/m2
/// (Lambert).
double grey_card_cd_per_m2(std::span<const glm::dvec3> illuminance_xyz);

}  // namespace rakelight
