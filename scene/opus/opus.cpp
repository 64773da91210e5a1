#include "scene/opus/opus.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "materials/maths/hash.h"
#include "scene/flow/breaks.h"
#include "scene/opus/opera.h"
#include "scene/opus/seams.h"

namespace rakelight {

FieldHand hand_of(const Field& field) {
    FieldHand hand;
    hand.pitch = {field.piece_length_mm + field.joint_mm, field.piece_width_mm + field.joint_mm};
    const double narrow = std::min(field.piece_length_mm, field.piece_width_mm);
    hand.rules.joint_mm = field.joint_mm;
    hand.rules.nominal_mm2 = field.piece_length_mm * field.piece_width_mm;
    // No edge under 2 mm, 0.7 in micro-mosaic; no remnant under 0.35 of the width: common practice, no
    // published source.
    hand.rules.least_edge_mm = std::clamp(0.2 * narrow, 0.7, 2.5);
    hand.rules.least_width_mm = 0.38 * narrow;
    return hand;
}

HeadRules heads_of(const FieldHand& hand) {
    const double joint = hand.rules.joint_mm;
    return {hand.pitch.across_mm - joint, hand.head_tolerance * joint, 0.4 * hand.hand};
}

void cut_cells(const std::vector<Ring>& cells, const std::vector<Seed>& seeds, const CuttingRules& rules,
               std::uint64_t seed, std::vector<Piece>& pieces) {
    std::vector<std::vector<Ring>> cut(cells.size());
    tbb::parallel_for(std::size_t{0}, cells.size(),
                      [&](std::size_t i) { cut[i] = cut_cell(cells[i], rules, hash_combine(seed, i)); });
    for (std::size_t i = 0; i < cells.size(); ++i)
        for (std::size_t k = 0; k < cut[i].size(); ++k) {
            Piece piece;
            piece.outline_mm = std::move(cut[i][k]);
            if (i < seeds.size()) piece.along = seeds[i].along;
            piece.seed = hash_combine(hash_combine(seed, i), k + 1);
            pieces.push_back(std::move(piece));
        }
}

double least_angle_deg(const Field& field, std::span<const Material> stock) {
    double angle = kLeastAngle_deg;
    for (const auto& part : field.mix) {
        const Material& material = stock[part.material];
        if (material.kind == Kind::glass) continue;
        constexpr double kFloats_g_per_cm3 = 1;
        angle = std::max(angle, material.density_g_per_cm3 < kFloats_g_per_cm3 ? 50.0 : 40.0);
    }
    return angle;
}

std::vector<Piece> lay_field(const Field& field, const Region& ground, std::uint64_t seed,
                             double least_angle_deg, const Contours& contours) {
    std::vector<Piece> pieces;
    FieldHand hand = hand_of(field);
    hand.rules.least_angle_deg = least_angle_deg;
    HeadJoints heads(hand.pitch);
    Region left = lay_halo(ground, contours.halo.empty() ? ground : contours.halo, field.halo_rows, hand,
                           heads, hash_combine(seed, 1), pieces);
    if (left.empty()) return pieces;
    const std::vector<Row> breaks = breaks_of(field, ground);
    if (!breaks.empty()) left = slit(left, breaks);
    Region outline = left;
    if (!contours.outline.empty() && (field.halo_rows == 0 || !contours.halo.empty()))
        outline =
            field.halo_rows == 0
                ? contours.outline
                : intersect(contours.outline, grow(contours.halo, -field.halo_rows * hand.pitch.across_mm));
    rule_of(field.opus).lay({field, left, outline, breaks, hand, heads, hash_combine(seed, 2)}, pieces);
    return pieces;
}

}  // namespace rakelight
