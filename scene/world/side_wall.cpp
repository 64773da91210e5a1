#include "scene/world/side_wall.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

namespace {
constexpr double kMostShare = 0.6;  // the law is of short moves; small deep pieces still show some bed
constexpr double kSteps = 20;       // of the share, so that surfaces can be shared
}  // namespace

double side_share(double length_mm, double width_mm, double bonded_mm, double index) {
    const double aside = index * index * std::asin(1 / index) - std::sqrt(index * index - 1);
    const double edge_per_area = 2 * (length_mm + width_mm) / (length_mm * width_mm);
    return std::clamp(aside * bonded_mm * edge_per_area / std::numbers::pi, 0.0, kMostShare);
}

double bonded_mm(const Field& field, double thickness_mm) {
    // Squeezed-up bed stops a third to a half up the piece: common practice, no published source.
    if (field.fill > 0) return field.fill * thickness_mm;
    const double least = field.grout ? 0 : 2 * thickness_mm / 3;
    return thickness_mm - std::max(std::min(field.recess_mm, 0.9 * thickness_mm), least);
}

SideWall side_wall(const std::vector<Material>& tints, const Field& field, double thickness_mm,
                   double index) {
    const double share = side_share(field.piece_length_mm, field.piece_width_mm,
                                    bonded_mm(field, thickness_mm), std::max(index, 1.0));
    return {tints[filling_of(field)].reflectance, std::round(share * kSteps) / kSteps};
}

}  // namespace rakelight
