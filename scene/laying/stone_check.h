// Are the stones where stones can be? Two cannot share a place, each must reach down into what holds it, and
// none can stand in the frame.
#pragma once

#include <vector>

#include "materials/optics/material.h"
#include "scene/forms/stone_body.h"
#include "scene/laying/laying.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

struct Layout;

/// Stones may press into one another by this much before it is called a mistake: what a rub with a file takes
/// off.
inline constexpr double kRub_mm = 0.5;

/// A stone sits at least this deep below the filling of the joints round it.
inline constexpr double kLeastSeat_mm = 2;

/// How far stone `a` stands in stone `b`, mm, along the way to either one's heart; 0 when apart. Looked for
/// at the points of meshes of 1280 triangles, so that contacts smaller than their spacing may be missed.
double overlap_mm(const SetStone& a, const Material& a_material, const SetStone& b,
                  const Material& b_material);

/// What is wrong with the stones of a layout, each with its place. `shapes`: theirs, one each.
std::vector<Problem> check_stones(const Layout& layout, const std::vector<SetStone>& stones,
                                  const std::vector<StoneShape>& shapes);

}  // namespace rakelight
