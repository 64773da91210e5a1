// The sides of a piece of glass: how wide it is and how far up its filling reaches, see
// materials/optics/side_wall.h; and how far a place in it lies from its edge.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "materials/optics/material.h"
#include "materials/optics/side_wall.h"
#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

/// Edge over area of an outline, 1/mm, and of a rectangle; that of several together is their edges over their
/// areas.
double edge_per_mm(std::span<const glm::dvec2> outline_mm);
inline double edge_per_mm(double length_mm, double width_mm) {
    return 2 * (length_mm + width_mm) / (length_mm * width_mm);
}

/// The same of the pieces that are laid of a material (an index in `Layout::stock`) in a field (an index in
/// `Layout::fields`) together; of a piece as that field says, `said`, where none is.
double edge_of_pieces(const Field& said, const std::vector<Piece>& pieces, std::size_t field,
                      std::uint32_t material);

/// Distance of each position of a piece's mesh, mm, from its outline in plan: what lies outside counts as 0.
std::vector<float> distances_from_edge(const std::vector<glm::vec3>& positions_mm,
                                       std::span<const glm::dvec2> outline_mm);

/// The filling at the sides of translucent pieces of a material, the width in steps, so that surfaces can be
/// shared: what a picture, a palette, a stock sheet and a match alike show of a piece. Under leaf no light
/// comes to the sides.
SideWall side_wall(const SampledSpectrum& filling, double edge_per_mm, double bonded_mm, double thickness_mm,
                   const Material& material);

/// Height over which the filling of a field's joints touches a piece so thick.
double bonded_mm(const Field& field, double thickness_mm);

/// The same of pieces of a field.
SideWall side_wall(const std::vector<Material>& tints, const Field& field, double edge_per_mm,
                   double thickness_mm, const Material& material);

}  // namespace rakelight
