#include "scene/forms/side_wall.h"

#include <algorithm>
#include <cmath>

#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {
constexpr double kSteps = 8;  // of an octave of the width, so that surfaces can be shared
}  // namespace

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

std::vector<float> distances_from_edge(const std::vector<glm::vec3>& positions_mm,
                                       std::span<const glm::dvec2> outline_mm) {
    std::vector<float> r;
    r.reserve(positions_mm.size());
    for (const glm::vec3& position : positions_mm) {
        const glm::dvec2 p(position);
        double nearest2 = 1e18;
        bool within = false;
        for (std::size_t i = 0; i < outline_mm.size(); ++i) {
            const glm::dvec2 a = outline_mm[i], b = outline_mm[(i + 1) % outline_mm.size()], side = b - a;
            const double length2 = std::max(glm::dot(side, side), 1e-18);
            const glm::dvec2 off = p - a - side * std::clamp(glm::dot(p - a, side) / length2, 0.0, 1.0);
            nearest2 = std::min(nearest2, glm::dot(off, off));
            if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * side.x)
                within = !within;
        }
        r.push_back(within ? static_cast<float>(std::sqrt(nearest2)) : 0);
    }
    return r;
}

SideWall side_wall(const SampledSpectrum& filling, double edge_per_mm, double bonded_mm, double thickness_mm,
                   const Material& material) {
    double lit_mm = bonded_mm;
    if (material.leaf != Leaf::none && material.leaf_depth_mm > 0)
        lit_mm -= std::max(thickness_mm - static_cast<double>(material.leaf_depth_mm), 0.0);
    if (!(edge_per_mm > 0)) return {filling, 0, 0};  // as if it had no end
    const double across_mm = std::exp2(std::round(std::log2(4 / edge_per_mm) * kSteps) / kSteps);
    return {filling, across_mm, std::max(lit_mm, 0.0)};
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
