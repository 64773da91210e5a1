// How high each piece stands and which way it leans. All faces are levelled to one plane, thin pieces on more
// bed; then come lippage and tilt, part of it shared over a patch of a day's work (100 to 400 mm), part each
// piece's own.
#pragma once

#include <cstdint>
#include <span>

#include "scene/laying.h"

namespace rakelight {

/// Thickness of the pieces of a field that are of one material: the field's own, else the material's.
double piece_thickness_mm(const Field& field, const Material& material);

/// Height of the common plane of all faces above the substrate's front: the bed under the thickest piece.
double face_plane_mm(const Layout& layout);

/// Sets thickness, height and tilt of every piece of a field.
void set_heights(const Layout& layout, const Field& field, double plane_mm, std::uint64_t seed,
                 std::span<Piece> pieces);

}  // namespace rakelight
