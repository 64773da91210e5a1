// How much of the light that enters a piece of glass meets its sides, and so the grout, before the bed.
// A ray refracted at the angle t moves aside by h tan t over the bonded height h. For light that falls evenly
// from all round, Lambert's cosine law gives the mean of tan t over the refracted directions as
//     2 int_0^1 u^2 / sqrt(n^2 - u^2) du = n^2 asin(1/n) - sqrt(n^2 - 1)      (u the sine outside),
// and a convex outline of area A and edge P loses the share l P / (pi A) of its points to a short move l in
// random directions (Crofton; Santalo, "Integral Geometry and Geometric Probability", 1976).
#pragma once

#include <vector>

#include "materials/optics/material.h"
#include "materials/optics/surface.h"
#include "scene/model/field.h"

namespace rakelight {

/// Share of the light that enters a rectangle which meets a side over the height `bonded_mm`, at most 0.6.
/// Lengths above 0, `index` at least 1.
double side_share(double length_mm, double width_mm, double bonded_mm, double index);

/// Height over which the filling of a field's joints touches a piece so thick.
double bonded_mm(const Field& field, double thickness_mm);

/// The filling at the sides of a field's translucent pieces.
SideWall side_wall(const std::vector<Material>& tints, const Field& field, double thickness_mm, double index);

}  // namespace rakelight
