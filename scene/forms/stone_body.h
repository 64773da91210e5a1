// The body of a placed stone: a sphere of directions with a reach for each. Chunks are cut by planes and
// scooped by conchoidal breaks; pebbles are superellipsoids (Barr 1981). These and their lumps grow with the
// stone; its relief of bubbles, steps and grain is as large on a small stone as on a boulder.
#pragma once

#include <memory>

#include "materials/optics/material.h"
#include "scene/geometry/mesh.h"
#include "scene/model/piece.h"

namespace rakelight {

/// The solid itself, in panel coordinates. Every point of its surface can be seen from its heart.
class StoneShape {
  public:
    /// `material` must outlive the shape.
    StoneShape(const SetStone& stone, const Material& material);
    /// Where the surface lies in a unit direction of the unturned stone. What would lie behind the
    /// substrate's front is ground flat to it.
    glm::vec3 surface(const glm::vec3& direction) const;
    /// How deep a point lies inside, measured along the way from the heart; negative outside.
    double depth_mm(const glm::dvec3& point_mm) const;
    /// Closed mesh; `level`, 0 to 6: each has four times the triangles of the one before, level 0 has 20.
    /// Normals average the triangles' own, weighted by area.
    Mesh mesh(int level) const;
    /// As `stone_footprint`.
    std::vector<glm::dvec2> footprint(double level_mm) const;

  private:
    struct Form;
    glm::vec3 set(const glm::vec3& relieved) const;

    std::shared_ptr<Form> form_;
    glm::vec3 at_{0};
    glm::vec2 turn_{1, 0};
};

/// The mesh of a stone's shape.
Mesh stone_body(const SetStone& stone, const Material& material, int level);

/// Height of the fine relief along the way from the heart, mm, at a point `p` in millimetres from it. Does
/// not know how large the stone is.
float stone_relief_mm(const Material& material, bool pebble, const glm::vec3& p, std::uint32_t seed);

/// What the fields keep clear of: the convex outline of all of the stone that lies above `level_mm`, the
/// height down to which pieces stand beside it.
std::vector<glm::dvec2> stone_footprint(const SetStone& stone, const Material& material, double level_mm);

}  // namespace rakelight
