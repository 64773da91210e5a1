#include "scene/forms/side_wall.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {
constexpr double kMostShare = 0.6;  // the law is of short moves; small deep pieces still show some bed
constexpr double kSteps = 20;       // of the share, so that surfaces can be shared
}  // namespace

double side_share(double edge_per_mm, double bonded_mm, double index) {
    return std::clamp(mean_tangent(index) * bonded_mm * edge_per_mm / std::numbers::pi, 0.0, kMostShare);
}

double edge_per_mm(std::span<const glm::dvec2> outline_mm) {
    return perimeter_mm(outline_mm) / std::max(area_mm2(outline_mm), 1e-9);
}

double edge_of_pieces(const Field& said, const std::vector<Piece>& pieces, std::size_t field,
                      std::uint32_t material) {
    double edge = 0, area = 0;
    for (const Piece& piece : pieces)
        if (piece.field == field && piece.material == material) {
            edge += perimeter_mm(piece.outline_mm);
            area += area_mm2(piece.outline_mm);
        }
    return area > 0 ? edge / area : edge_per_mm(said.piece_length_mm, said.piece_width_mm);
}

SideWall side_wall(const SampledSpectrum& filling, double edge_per_mm, double bonded_mm, double thickness_mm,
                   const Material& material) {
    double lit_mm = bonded_mm;
    if (material.leaf != Leaf::none && material.leaf_depth_mm > 0)
        lit_mm -= std::max(thickness_mm - static_cast<double>(material.leaf_depth_mm), 0.0);
    const double share =
        side_share(edge_per_mm, std::max(lit_mm, 0.0), std::max(static_cast<double>(material.index), 1.0));
    return {filling, std::round(share * kSteps) / kSteps};
}

double bonded_mm(const Field& field, double thickness_mm) {
    // Squeezed-up bed stops a third to a half up the piece: common practice, no published source.
    if (field.fill > 0) return field.fill * thickness_mm;
    const double least = field.grout ? 0 : 2 * thickness_mm / 3;
    return thickness_mm - std::max(std::min(field.recess_mm, 0.9 * thickness_mm), least);
}

SideWall side_wall(const std::vector<Material>& tints, const Field& field, double edge_per_mm,
                   double thickness_mm, const Material& material) {
    return side_wall(tints[filling_of(field)].reflectance, edge_per_mm, bonded_mm(field, thickness_mm),
                     thickness_mm, material);
}

}  // namespace rakelight
