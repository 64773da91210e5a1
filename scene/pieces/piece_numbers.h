// The lattice that a laid piece's numbers lie on, fine enough for any hand: lengths in tenths of a
// micrometre, angles in millionths of a degree. What is on it has a short decimal form that reads back to the
// same bits, so that a piece table is legible and loses nothing.
#pragma once

#include <glm/glm.hpp>
#include <span>

#include "scene/model/piece.h"

namespace rakelight {

/// The nearest length on the lattice, mm.
double lattice_mm(double length_mm);
/// The nearest point on the lattice, mm.
glm::dvec2 lattice_mm(const glm::dvec2& point_mm);

/// Direction of a row as an angle on the lattice, counter-clockwise from x, -180..180 degrees.
double rotation_deg(const glm::dvec2& along);
/// The unit direction of that angle; `rotation_deg` of it is the angle again.
glm::dvec2 direction_of(double rotation_deg);

/// Lean of a face as angles on the lattice.
glm::dvec2 tilt_deg(const glm::dvec2& tilt_rad);
/// Degrees to radians, not rounded.
glm::dvec2 tilt_rad_of(const glm::dvec2& tilt_deg);

/// Brings every number of a piece to the lattice; again changes nothing.
void settle_numbers(Piece& piece);

/// Settles the pieces of one field and numbers them from 1.
void number_pieces(std::span<Piece> pieces);

}  // namespace rakelight
