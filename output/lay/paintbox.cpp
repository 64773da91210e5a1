#include "output/lay/paintbox.h"

#include "materials/colour/illuminants.h"
#include "materials/stock/face_on.h"
#include "output/print/printed_colour.h"
#include "scene/forms/side_wall.h"
#include "scene/model/layout.h"

namespace rakelight {

Paintbox::Paintbox(const std::string& light) : weights_(tristimulus_weights(*find_illuminant(light))) {}

template <class MakeSide>
Rgb8 Paintbox::made(const Key& key, MakeSide&& side, const SampledSpectrum& backing) {
    const auto [it, fresh] = made_.try_emplace(key);
    if (fresh) {
        const auto& [material, thickness_mm, field, tone] = key;
        const SampledSpectrum seen =
            face_on_reflectance(*material, thickness_mm, backing, tone, tables_, side());
        it->second = printed_colour(xyz_to_lab(xyz(seen), xyz(SampledSpectrum(1)))).srgb;
    }
    return it->second;
}

Rgb8 Paintbox::of(const Material& material, double thickness_mm) {
    return made({&material, thickness_mm, nullptr, 1}, [] { return SideWall(); });
}

Rgb8 Paintbox::of(const Piece& piece, const Layout& layout, const Laying& laying, double tone) {
    const Material& material = layout.stock[piece.material];
    const Field& field = layout.fields[piece.field];
    if (material.opaque)
        return made({&material, piece.thickness_mm, nullptr, tone}, [] { return SideWall(); });
    return made(
        {&material, piece.thickness_mm, &field, tone},
        [&] {
            const double edge = edge_of_pieces(field, laying.pieces, piece.field, piece.material);
            return side_wall(layout.tints, field, edge, piece.thickness_mm, material);
        },
        layout.tints[field.bed].reflectance);
}

Xyz Paintbox::xyz(const SampledSpectrum& reflectance) const {
    const auto [x, y, z] = integrate(weights_, reflectance);
    return {x, y, z};
}

}  // namespace rakelight
