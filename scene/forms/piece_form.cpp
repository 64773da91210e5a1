#include "scene/forms/piece_form.h"

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "scene/geometry/region.h"

namespace rakelight {

namespace {

bool is_sheet(FaceKind face) {
    return face == FaceKind::fused;
}

}  // namespace

PieceForm usual_form(const Material& material) {
    switch (face_kind(material)) {
        case FaceKind::fused:
            return PieceForm::fused_edge;
        case FaceKind::riven:
            return PieceForm::riven;
        case FaceKind::worn:
            return PieceForm::tumbled;
        case FaceKind::sawn:
            return PieceForm::sawn;
        case FaceKind::lumpy:
        case FaceKind::pitted:
            break;
    }
    return PieceForm::nipped;
}

FormRule form_rule(PieceForm form, const Material& material) {
    const FaceKind own = face_kind(material);
    FormRule rule;
    rule.face = own;
    switch (form) {
        case PieceForm::of_material:
            return form_rule(usual_form(material), material);
        case PieceForm::sawn:
            if (own == FaceKind::riven || own == FaceKind::worn || own == FaceKind::lumpy)
                rule.face = FaceKind::sawn;
            rule.arris_mm = {0.2f, 0.4f};
            rule.ragged_mm = is_sheet(own) ? 0 : 0.15f;
            rule.chips = is_sheet(own) ? 0 : 0.2f;
            rule.chip_mm = {0.5f, 2};
            break;
        case PieceForm::nipped:
            // A sheet breaks clean and chips in shells; slag and pumice break as they please.
            rule.arris_mm = own == FaceKind::lumpy    ? Span{0.8f, 1.2f}
                            : own == FaceKind::pitted ? Span{0.5f, 0.8f}
                                                      : Span{0.15f, 0.3f};
            rule.ragged_mm = is_sheet(own) ? 0.06f : 0.5f;
            rule.bow_share = is_sheet(own) ? 0.03f : 0.01f;
            rule.undercut_deg = is_sheet(own) ? 14 : 0;
            rule.chips = is_sheet(own) ? 1.6f : 0.3f;
            rule.chip_mm = {0.5f, 3};
            break;
        case PieceForm::riven:
            rule.face = FaceKind::riven;
            rule.arris_mm = {0.2f, 0.3f};
            rule.ragged_mm = 0.5f;
            rule.undercut_deg = 8;
            rule.chips = 0.3f;
            rule.chip_mm = {1, 3};
            break;
        case PieceForm::fused_edge:
            rule.arris_mm = {0.3f, 0.5f};
            rule.polished_mm = {1, 2.2f};
            rule.polished_share = 0.6f;
            rule.ragged_mm = 0.05f;
            rule.bow_share = 0.012f;
            rule.undercut_deg = 8;
            rule.chips = 0.15f;
            rule.chip_mm = {0.5f, 2};
            break;
        case PieceForm::tumbled:
            rule.arris_mm = {1.5f, 3};
            rule.ragged_mm = 0.1f;
            break;
        case PieceForm::chunk:
        case PieceForm::pebble:
        case PieceForm::bead:
            break;
    }
    return rule;
}

double chunk_rise_mm(const Piece& piece) {
    const double share = 0.5 + 0.8 * unit_from_hash(hash_combine(piece.seed, 51));
    return std::clamp(share * mean_half_width_mm(piece.outline_mm), 5.0, 30.0);
}

double pebble_height_mm(const Piece& piece, double thickness_mm) {
    return std::min(thickness_mm, 1.6 * mean_half_width_mm(piece.outline_mm));
}

double bead_height_mm(const Piece& piece) {
    const glm::dvec2 across(-piece.along.y, piece.along.x);
    Box box;  // turned to its thread
    for (const auto& p : piece.outline_mm) box.add({glm::dot(p, piece.along), glm::dot(p, across)});
    return std::min(box.size().x, box.size().y);
}

bool is_lump(PieceForm form) {
    return form == PieceForm::chunk || form == PieceForm::pebble || form == PieceForm::bead;
}

double proud_by_form_mm(const Piece& piece, double recess_mm) {
    if (piece.form == PieceForm::chunk) return chunk_rise_mm(piece);
    if (piece.form == PieceForm::pebble) return kPebbleShown * piece.thickness_mm - recess_mm;
    if (piece.form == PieceForm::bead) return kBeadShown * piece.thickness_mm - recess_mm;
    return piece.dome_mm.value_or(0);
}

}  // namespace rakelight
