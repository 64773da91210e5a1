// The ways of laying a field, behind one door. Each shares the field's ground out into cells and cuts a piece
// from every cell; they differ in where the cells lie.
// opera.h is the table of them. Names as commonly given by mosaic makers; glossaries differ.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "materials/optics/material.h"
#include "scene/flow/cells.h"
#include "scene/flow/row.h"
#include "scene/model/field.h"
#include "scene/model/piece.h"
#include "scene/opus/contours.h"
#include "scene/opus/cutting.h"
#include "scene/opus/eyes.h"
#include "scene/opus/head_joints.h"

namespace rakelight {

/// Pieces of a field in plan: outline, row direction and seed are set, the rest is not.
/// `ground`: the field's region up to the middle of its joints (region_plan.h). `seed`: of this field alone.
/// `least_angle_deg`: sharper corners are nipped off.
std::vector<Piece> lay_field(const Field& field, const Region& ground, std::uint64_t seed,
                             double least_angle_deg = kLeastAngle_deg, const Contours& contours = {});

/// The sharpest corner that all materials of a field keep when cut: 32 degrees in glass, 40 in stone and
/// slag, 50 in what is as light and crumbly as pumice. Common practice, no published source.
double least_angle_deg(const Field& field, std::span<const Material> stock);

/// What the opera share.
struct FieldHand {
    Pitch pitch;
    CuttingRules rules;
    double hand = 0.05;           ///< relative standard deviation of piece lengths
    double head_tolerance = 0.5;  ///< of the joint: how far a head may open before pieces are wedged
    bool forks = true;            ///< rows that end within the field do so in a wedge (forks.h)
};
/// As piece size and joint of a field ask, mm.
FieldHand hand_of(const Field& field);

/// How heads of rows are cut by that hand.
HeadRules heads_of(const FieldHand& hand);

/// Cuts every cell and appends the pieces to `pieces`. `seeds` gives row directions, by index.
void cut_cells(const std::vector<Ring>& cells, const std::vector<Seed>& seeds, const CuttingRules& rules,
               std::uint64_t seed, std::vector<Piece>& pieces);

/// Lays rows on `ground`, given their middle lines, which may reach beyond it or come too near to one
/// another. `drops`: eyes that are shared out with them (eyes.h). \return where rows end within the field
std::vector<glm::dvec2> lay_rows(const std::vector<Row>& rows, const Region& ground, const FieldHand& hand,
                                 HeadJoints& heads, std::uint64_t seed, std::vector<Piece>& pieces,
                                 std::span<const Eye> drops = {});

/// Lays `rows` rows along the edge of `contour`, as far as they lie in `ground`, appends them to `pieces` and
/// returns the ground that is left: empty when the rows fill it.
Region lay_halo(const Region& ground, const Region& contour, int rows, const FieldHand& hand,
                HeadJoints& heads, std::uint64_t seed, std::vector<Piece>& pieces);

/// What one opus is asked to lay.
struct OpusTask {
    const Field& field;
    const Region& ground;  ///< inside the halo, slit along the field's breaks; never empty
    const Region&
        outline;  ///< its edges are those that rows follow: of `ground`, or as it goes on past the panel
    const std::vector<Row>& breaks;  ///< lines at which rows end (seams.h)
    const FieldHand& hand;
    HeadJoints& heads;  ///< of the halo; rows add theirs
    std::uint64_t seed = 0;
};

/// Radius of the arcs of fans: the field's own, else ten pieces' width.
double fan_radius_mm(const Field& field);
/// Middle lines of straight rows, and their pitch, which is fitted to the ground.
struct StraightRows {
    std::vector<Row> rows;
    Pitch pitch;
};
/// Rows at the field's angle over the whole of `ground`, 1 mm beyond it at both ends. The pitch across is
/// that of `wanted`, stretched or shrunk to a whole number of rows; at least one row.
StraightRows straight_rows(const Field& field, const Region& ground, const Pitch& wanted);
/// Middle lines of rows along the guides and round the holes of the ground; along its whole edge when there
/// is no guide or `follow_outline` is set.
std::vector<Row> flowing_rows(const OpusTask& task, bool follow_outline);

}  // namespace rakelight
