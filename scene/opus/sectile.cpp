// Sectile: the drawing is the cutting plan. Lines are the middle of the joints, so each shape is drawn in by
// half a joint; what no shape covers is ground and is cut in pieces too. Shapes that cannot be cut in one
// piece are parted (star_parts.h).
#include "materials/maths/hash.h"
#include "scene/geometry/stroke.h"
#include "scene/opus/opus.h"
#include "scene/opus/star_parts.h"

namespace rakelight {

void lay_sectile(const OpusTask& task, std::vector<Piece>& pieces) {
    const Field& field = task.field;
    const Region& ground = task.ground;
    constexpr double kLeastWidth_mm = 1;
    const double half_mm = half_joint_mm(field.joint_mm);
    const double slit = std::max(field.joint_mm, 0.05);
    const auto cut = [&](const Region& cell, std::int32_t shape) {
        std::uint64_t k = hash_combine(task.seed, static_cast<std::uint64_t>(shape + 1));
        for (auto& ring : star_parts(grow(cell, -half_mm), slit, kLeastWidth_mm)) {
            Piece piece;
            piece.outline_mm = std::move(ring);
            piece.along = {std::cos(glm::radians(field.angle_deg)), std::sin(glm::radians(field.angle_deg))};
            piece.seed = k = hash_combine(k, 1);
            piece.shape = shape;
            pieces.push_back(std::move(piece));
        }
    };
    Region left = ground;
    for (std::size_t s = 0; s < field.shapes.size(); ++s) {
        const Region shape = region_of(flatten(field.shapes[s].outline, 0.02));
        cut(intersect(shape, left), static_cast<std::int32_t>(s));
        left = subtract(left, shape);
    }
    // Shapes drawn edge to edge leave threads between them that are no ground.
    cut(grow(grow(left, -half_mm - 0.02), half_mm + 0.02), -1);
}

}  // namespace rakelight
