// Materials that the drawing fixes: a shape with a material of its own keeps out of the mix, and the parts of
// one shape are cut from one sheet.
#pragma once

#include <optional>
#include <span>

#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

/// The material, as an index in `Layout::stock`, that the shape of a piece has of its own; none: the mix
/// decides.
std::optional<std::uint32_t> drawn_material(const Field& field, const Piece& piece);

/// Gives every piece of a shape the material of the shape's first piece.
void match_parts(std::span<Piece> pieces);

}  // namespace rakelight
