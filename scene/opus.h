// The ways of laying a field, behind one door. Each shares the field's ground out into cells and cuts a piece
// from every cell; they differ in where the cells lie.
//   regulatum     equal squares on a lattice, both joint families running through
//   tessellatum   straight parallel rows, heads staggered
//   musivum       rows along the guides, blended between them over the whole field
//   vermiculatum  rows along the field's own outline (and its guides)
//   palladianum   irregular convex pieces with equal joints, three meeting at each corner
//   classicum     halo rows along every edge, then straight rows cut to fit against them
//   sectile       a piece for every drawn shape, and the ground between them
//   fans          rows in arcs, bay beside bay
//   pebbles       rounded pieces, flat or on edge, along the flow
// opus_words.h holds the definitions that are printed. Names as commonly given by mosaic makers; glossaries
// differ.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/cells.h"
#include "scene/cutting.h"
#include "scene/laying.h"
#include "scene/row.h"

namespace rakelight {

/// Pieces of a field in plan: outline, row direction and seed are set, the rest is not.
/// `ground`: the field's region up to the middle of its joints (region_plan.h). `seed`: of this field alone.
/// `least_angle_deg`: sharper corners are nipped off.
std::vector<Piece> lay_field(const Field& field, const Region& ground, std::uint64_t seed,
                             double least_angle_deg = kLeastAngle_deg);

/// The sharpest corner that all materials of a field keep when cut: 32 degrees in glass, 40 in stone and
/// slag, 50 in what is as light and crumbly as pumice. Common practice, no published source.
double least_angle_deg(const Field& field, std::span<const Material> stock);

/// What the opera share.
struct FieldHand {
    Pitch pitch;
    CuttingRules rules;
    double hand = 0.05;           ///< relative standard deviation of piece lengths
    double head_tolerance = 0.5;  ///< of the joint: how far a head may open before pieces are wedged
};
FieldHand hand_of(const Field& field);

/// Cuts every cell and appends the pieces. `seeds` gives row directions, by index.
void cut_cells(const std::vector<Ring>& cells, const std::vector<Seed>& seeds, const CuttingRules& rules,
               std::uint64_t seed, std::vector<Piece>& pieces);

/// Lays rows on `ground`, given their middle lines, which may reach beyond it or come too near to one
/// another.
void lay_rows(const std::vector<Row>& rows, const Region& ground, const FieldHand& hand, HeadJoints& heads,
              std::uint64_t seed, std::vector<Piece>& pieces);

/// Lays `rows` rows along the edge of `ground`, appends them to `pieces` and returns the ground that is left.
Region lay_halo(const Region& ground, int rows, const FieldHand& hand, HeadJoints& heads, std::uint64_t seed,
                std::vector<Piece>& pieces);

void lay_regulatum(const Field& field, const Region& ground, const FieldHand& hand, std::uint64_t seed,
                   std::vector<Piece>& pieces);
void lay_palladianum(const Field& field, const Region& ground, const FieldHand& hand, std::uint64_t seed,
                     std::vector<Piece>& pieces);
/// Straight rows whose end pieces are cut to the edge of `ground` (the inner edge of the halo).
void lay_classicum(const Field& field, const Region& ground, const FieldHand& hand, HeadJoints& heads,
                   std::uint64_t seed, std::vector<Piece>& pieces);
void lay_sectile(const Field& field, const Region& ground, std::uint64_t seed, std::vector<Piece>& pieces);
void lay_fans(const Field& field, const Region& ground, const FieldHand& hand, HeadJoints& heads,
              std::uint64_t seed, std::vector<Piece>& pieces);
/// Radius of the arcs: the field's own, else ten pieces' width.
double fan_radius_mm(const Field& field);
void lay_pebbles(const Field& field, const Region& ground, const FieldHand& hand, HeadJoints& heads,
                 std::uint64_t seed, std::vector<Piece>& pieces);
/// The field's breaks as lines.
std::vector<Row> breaks_of(const Field& field);
/// Middle lines of straight rows, and their pitch, which is fitted to the ground.
struct StraightRows {
    std::vector<Row> rows;
    Pitch pitch;
};
StraightRows straight_rows(const Field& field, const Region& ground, const Pitch& wanted);
/// Middle lines of rows along the guides and round the holes of the ground; along its whole edge when there
/// is no guide or `follow_outline` is set.
std::vector<Row> flowing_rows(const Field& field, const Region& ground, const FieldHand& hand,
                              bool follow_outline);

}  // namespace rakelight
