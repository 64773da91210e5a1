#include "scene/heights.h"

#include <algorithm>
#include <cmath>

#include "materials/noise.h"
#include "scene/hash.h"
#include "scene/region.h"

namespace rakelight {

namespace {

constexpr double kPatch_mm = 220;
constexpr double kPatchShare = 0.35;  // of the variance of tilt

// Unit variance, smooth over a patch.
double of_patch(const glm::dvec2& at_mm, std::uint64_t seed, float layer) {
    const glm::vec3 p(glm::vec2(at_mm / (0.5 * kPatch_mm)), layer);
    return gradient_noise(p, static_cast<std::uint32_t>(seed)).value / kNoiseDeviation;
}

}  // namespace

double piece_thickness_mm(const Field& field, const Material& material) {
    return field.thickness_mm > 0 ? field.thickness_mm : static_cast<double>(material.thickness_mm);
}

double face_plane_mm(const Layout& layout) {
    double thickest = 0;
    for (const auto& field : layout.fields)
        for (const auto& part : field.mix)
            for (const auto& material : layout.stock)
                if (material.name == part.material)
                    thickest = std::max(thickest, piece_thickness_mm(field, material));
    return layout.substrate.bed_mm + thickest;
}

void set_heights(const Layout& layout, const Field& field, double plane_mm, std::uint64_t seed,
                 std::span<Piece> pieces) {
    const double slope = std::tan(glm::radians(field.tilt_deg));
    for (auto& piece : pieces) {
        Chance chance(hash_combine(piece.seed, 11));
        const glm::dvec2 at = centroid(piece.outline_mm);
        piece.thickness_mm = piece_thickness_mm(field, layout.stock[piece.material]);
        for (int axis = 0; axis < 2; ++axis)
            piece.tilt_rad[axis] =
                slope * (std::sqrt(kPatchShare) * of_patch(at, seed, 0.5f + static_cast<float>(axis) * 7) +
                         std::sqrt(1 - kPatchShare) * chance.spread());
        // A piece can be pressed into its bed but not through it.
        const double bed = plane_mm - piece.thickness_mm;
        piece.top_mm =
            plane_mm + std::max(field.lippage_mm * std::clamp(chance.spread(), -3.0, 3.0), -0.9 * bed);
    }
}

}  // namespace rakelight
