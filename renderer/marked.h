// Markings where a ray meets them: which look of the material is seen, how bright, and which way its face
// leans.
#pragma once

#include <glm/glm.hpp>

#include "scene/world/world.h"

namespace rakelight {

/// A hit on an object that has markings.
struct MarkedHit {
    glm::vec3 at_mm{};
    glm::vec3 direction{};  ///< of the ray, unit
    glm::vec3 normal{};     ///< unit, shading, towards the ray's side
    float edge_mm = 1e6f;   ///< of a filling: distance from the pieces, below 0 under one
    glm::vec3 inward{0};    ///< and its gradient
};

/// What it makes of it.
struct MarkedLook {
    const Surface* surface = nullptr;
    float scale = 1;     ///< on the base
    glm::vec3 normal{};  ///< unit
};

/// Precondition: `object.marks` is none of kNone.
MarkedLook marked_look(const World& world, const Object& object, const MarkedHit& hit);

}  // namespace rakelight
