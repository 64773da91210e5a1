// What each form of piece looks like, in figures: its face, its edges, how it was parted from its neighbour.
// Common practice, no published source.
#pragma once

#include "materials/optics/material.h"
#include "scene/forms/relief.h"
#include "scene/geometry/mesh.h"
#include "scene/model/piece.h"

namespace rakelight {

/// From low to high, evenly.
struct Span {
    float low = 0;
    float high = 0;
};

struct FormRule {
    FaceKind face = FaceKind::sawn;
    Span arris_mm;             ///< radius of the edge between face and side
    Span polished_mm;          ///< the same on sides that the kiln has rounded
    float polished_share = 0;  ///< of pieces that are rounded all round; one or two sides of the others are
    float ragged_mm = 0;       ///< how deep the arris is crumbled back here and there
    float bow_share = 0;       ///< hollow of a side in plan over its length, at most
    float undercut_deg = 0;    ///< sides lean in towards the back by up to this
    float chips = 0;           ///< shells broken off the arris, mean number a piece, at most 4 on one
    Span chip_mm;              ///< their radius
};

/// The form that pieces of a material usually have: never `of_material`.
PieceForm usual_form(const Material& material);

/// For all forms but lumps (`is_lump`).
FormRule form_rule(PieceForm form, const Material& material);

/// How far a chunk rises above the plane of the faces: 5 to 30 mm, by its size and seed.
double chunk_rise_mm(const Piece& piece);

/// How much of a pebble's height stands above the joint: it is set two thirds deep.
inline constexpr double kPebbleShown = 1.0 / 3;

/// How much of a bead's height stands above the joint: it is set half deep.
inline constexpr double kBeadShown = 1.0 / 2;

/// A bead's height: as wide as it is where it is narrowest, since it is round about its thread.
double bead_height_mm(const Piece& piece);

/// Whether a form is round all over, with no face to speak of.
bool is_lump(PieceForm form);

/// A pebble's height: at most `thickness_mm`, and never taller than it is wide.
double pebble_height_mm(const Piece& piece, double thickness_mm);

/// How far the middle of a laid piece stands above the plane of the faces by its form: the rise of a chunk,
/// what a pebble shows of itself, the sagitta of a dome. Joints are filled as if it stood in that plane.
double proud_by_form_mm(const Piece& piece, double recess_mm);

/// The solids of the last three forms; as form_piece. A bead's is an ellipsoid over its outline.
Mesh form_chunk(const Piece& piece, const Material& material);
Mesh form_pebble(const Piece& piece);
Mesh form_bead(const Piece& piece);

/// A pebble is a superellipsoid of this power in its upright sections (Barr 1981, "Superquadrics and
/// Angle-Preserving Transformations"); in plan it is its own outline, corners worn off.
inline constexpr float kPebblePower = 2.3f;

}  // namespace rakelight
