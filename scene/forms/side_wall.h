// How much of the light that enters a piece of glass meets its sides, and so the grout, before the bed.
// A ray refracted at the angle t moves aside by h tan t over the bonded height h, in the mean over light from
// all round by h times `mean_tangent` (surface.h), and a convex outline of area A and edge P loses the share
// l P / (pi A) of its points to a short move l in random directions (Crofton; Santalo, "Integral Geometry and
// Geometric Probability", 1976).
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "materials/optics/material.h"
#include "materials/optics/surface.h"
#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

/// Share of the light that enters an outline which meets a side over the height `bonded_mm`, at most 0.6.
/// `edge_per_mm`: its edge over its area, 1/mm; that of several together is their edges over their areas.
/// `index` at least 1.
double side_share(double edge_per_mm, double bonded_mm, double index);

/// Edge over area of an outline, 1/mm, and of a rectangle.
double edge_per_mm(std::span<const glm::dvec2> outline_mm);
inline double edge_per_mm(double length_mm, double width_mm) {
    return 2 * (length_mm + width_mm) / (length_mm * width_mm);
}

/// The same of the pieces that are laid of a material (an index in `Layout::stock`) in a field (an index in
/// `Layout::fields`) together; of a piece as that field says, `said`, where none is.
double edge_of_pieces(const Field& said, const std::vector<Piece>& pieces, std::size_t field,
                      std::uint32_t material);

/// The filling at the sides of translucent pieces of a material, the share in steps, so that surfaces can be
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
