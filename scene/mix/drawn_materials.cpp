#include "scene/mix/drawn_materials.h"

#include <map>

namespace rakelight {

std::optional<std::uint32_t> drawn_material(const Field& field, const Piece& piece) {
    if (piece.shape < 0) return std::nullopt;
    return field.shapes[static_cast<std::size_t>(piece.shape)].material;
}

void match_parts(std::span<Piece> pieces) {
    std::map<std::int32_t, std::uint32_t> material;
    for (auto& piece : pieces)
        if (piece.shape >= 0)
            piece.material = material.try_emplace(piece.shape, piece.material).first->second;
}

}  // namespace rakelight
