// How high each piece stands and which way it leans. All faces are levelled to one plane, thin pieces on more
// bed, chunks above it, pebbles two thirds deep in the joint and beads half deep; then come the lean asked
// for, lippage, and tilt: part of it shared over a patch of a day's work (100 to 400 mm), part each piece's
// own, both normally distributed. That a wall's glints need tilt, and that it was partly meant and partly
// not, is known from imaging of old gold grounds; the shares are common practice, no published source.
#pragma once

#include <cstdint>
#include <span>

#include "materials/optics/material.h"
#include "scene/model/field.h"
#include "scene/model/levels.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// How a piece of known form, dome and seed stands before lippage: sets its thickness and returns the height
/// of its middle. `plane_mm`: of the faces.
double stand(const Field& field, const Material& material, double plane_mm, Piece& piece);

/// Of the variance of tilt, what neighbours share; it correlates as exp(-r^2 / (2 l^2)) with l half a patch.
inline constexpr double kPatchShare = 0.35;

/// Sets thickness, height, tilt, form and dome of every piece of a field; a form that a piece has already
/// stays.
void set_heights(const Layout& layout, const Field& field, double plane_mm, std::uint64_t seed,
                 std::span<Piece> pieces);

}  // namespace rakelight
