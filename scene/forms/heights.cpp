#include "scene/forms/heights.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "scene/forms/piece_form.h"
#include "scene/geometry/patch_waves.h"
#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "scene/room/lean.h"

namespace rakelight {

namespace {

constexpr double kMostTilt_rad = std::numbers::pi / 3;  // 60 degrees: beyond, the face would be a side

}  // namespace

double stand(const Field& field, const Material& material, double plane_mm, Piece& piece) {
    piece.thickness_mm = piece_thickness_mm(field, material);
    if (piece.form == PieceForm::pebble) piece.thickness_mm = pebble_height_mm(piece, piece.thickness_mm);
    if (piece.form == PieceForm::bead) piece.thickness_mm = bead_height_mm(piece);
    const double proud = proud_by_form_mm(piece, field.recess_mm);
    if (piece.form != PieceForm::pebble && piece.form != PieceForm::bead) piece.thickness_mm += proud;
    return std::max(plane_mm + proud, piece.thickness_mm);  // not into the board
}

void set_heights(const Layout& layout, const Field& field, double plane_mm, std::uint64_t seed,
                 std::span<Piece> pieces) {
    const Setting& setting = field.setting;
    const double slope = std::tan(glm::radians(field.tilt_deg));
    const double most_slope = setting.most_tilt_deg > 0 ? std::tan(glm::radians(setting.most_tilt_deg)) : 1e9;
    const double most_lippage = setting.most_lippage_mm > 0 ? setting.most_lippage_mm : 3 * field.lippage_mm;
    const std::array<PatchWaves, 2> patch{PatchWaves(hash_combine(seed, 1), setting.patch_mm / 2),
                                          PatchWaves(hash_combine(seed, 2), setting.patch_mm / 2)};
    for (auto& piece : pieces) {
        Rng rng(hash_combine(piece.seed, 11));
        const glm::dvec2 at = centroid(piece.outline_mm);
        if (piece.form == PieceForm::of_material) piece.form = setting.form;
        piece.dome_mm = setting.dome_mm;
        const double level = stand(field, layout.stock[piece.material], plane_mm, piece);
        glm::dvec2 tilt = std::sqrt(1 - kPatchShare) * normal_pair(rng);
        for (int axis = 0; axis < 2; ++axis)
            tilt[axis] =
                slope * (tilt[axis] + std::sqrt(kPatchShare) * patch[static_cast<std::size_t>(axis)].at(at));
        tilt *= std::min(1.0, most_slope / std::max(glm::length(tilt), 1e-12));
        piece.tilt_rad = glm::atan(tilt);
        if (setting.lean.mean_deg > 0)
            piece.tilt_rad +=
                turned_face_rad(toward(layout, setting.lean, {at, plane_mm}), setting.lean.mean_deg);
        piece.tilt_rad = glm::clamp(piece.tilt_rad, -kMostTilt_rad, kMostTilt_rad);
        // A piece can be pressed into its bed but not through it.
        const double bed = std::max(level - piece.thickness_mm, 0.0);
        const double lippage = std::clamp(field.lippage_mm * normal_pair(rng).x, -most_lippage, most_lippage);
        // Nor does a thin one stand out of what holds it.
        const double holds = std::max(0.8 * piece.thickness_mm - field.recess_mm, 0.0);
        piece.top_mm = level + std::clamp(lippage, -0.9 * bed, holds);
    }
}

}  // namespace rakelight
