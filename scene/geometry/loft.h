// A closed solid through level sections: what turned and carved things are made of. Sections may be ellipses
// or rounded rectangles (a superellipse, |x/a|^n + |z/b|^n = 1; n = 2 is the ellipse).
#pragma once

#include <span>

#include "scene/geometry/mesh.h"

namespace rakelight {

struct LoftSection {
    double height_mm = 0;      ///< y
    glm::dvec2 centre_mm{};    ///< x, z
    glm::dvec2 half_mm{1, 1};  ///< half the width along x and along z, > 0
    double squareness = 2;     ///< n: 2 an ellipse, 8 a box with eased corners
};

/// The solid between the lowest and the highest section, which close it. Sections rise strictly; between them
/// the form runs smoothly (Catmull and Rom 1974), `steps` rings a section, or straight with one step.
/// Precondition: at least two sections.
Mesh loft_mesh(std::span<const LoftSection> sections, int around = 48, int steps = 4);

/// An upright slab or post with eased arrises of `ease_mm`. Precondition: no side shorter than twice that.
Mesh slab_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm, double ease_mm);

/// Puts one mesh behind another.
void append(Mesh& mesh, const Mesh& part);

}  // namespace rakelight
