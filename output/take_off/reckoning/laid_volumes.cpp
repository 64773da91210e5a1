#include "output/take_off/reckoning/laid_volumes.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "output/take_off/reckoning/piece_buckets.h"
#include "scene/forms/forms.h"
#include "scene/forms/joint_surface.h"
#include "scene/forms/piece_form.h"
#include "scene/geometry/edge_index.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kFarRegion_mm = 50;

// Mean height of the joint surface in each field, over what no piece or stone covers.
std::vector<double> surface_heights(const Layout& layout, const Laying& laying,
                                    const std::vector<Region>& regions) {
    const std::size_t fields = layout.fields.size();
    std::vector<std::vector<std::uint32_t>> of_tint(layout.tints.size());
    for (std::uint32_t f = 0; f < fields; ++f) of_tint[filling_of(layout.fields[f])].push_back(f);
    std::vector<EdgeIndex> indices;
    for (const Region& region : regions) indices.emplace_back(region, kFarRegion_mm);
    const PieceBuckets laid(laying);
    const JointSurface joints = form_joints(layout, laying);
    std::vector<double> area(fields, 0), moment(fields, 0);
    for (std::size_t t = 0; t < joints.mesh.triangles.size(); ++t) {
        const glm::uvec3& v = joints.mesh.triangles[t];
        const glm::dvec3 a(joints.mesh.positions_mm[v.x]), b(joints.mesh.positions_mm[v.y]),
            c(joints.mesh.positions_mm[v.z]);
        const glm::dvec2 u = b - a, w = c - a;
        const double plan = (u.x * w.y - u.y * w.x) / 2;
        const auto& owners = of_tint[joints.triangle_tint[t]];
        if (plan < 1e-9 || owners.empty()) continue;  // the skirt stands upright
        // Four alike triangles within it, each by its middle.
        for (const glm::dvec3& p :
             {(a + b + c) / 3.0, (4.0 * a + b + c) / 6.0, (a + 4.0 * b + c) / 6.0, (a + b + 4.0 * c) / 6.0}) {
            if (laid.covered(glm::dvec2(p))) continue;
            std::uint32_t owner = owners.front();
            if (owners.size() > 1)
                for (const std::uint32_t f : owners)
                    if (indices[f].contains(glm::dvec2(p))) owner = f;
            area[owner] += plan / 4;
            moment[owner] += plan / 4 * p.z;
        }
    }
    std::vector<double> heights(fields, 0);
    for (std::size_t f = 0; f < fields; ++f)
        heights[f] = area[f] > 0 ? moment[f] / area[f] : layout.panel.substrate.bed_mm;
    return heights;
}

// Of one piece or stone, between the levels of its field.
struct Sunk {
    double bed_mm3 = 0;    // that it leaves under itself and up to the bed's level
    double grout_mm3 = 0;  // from there to the joints' surface
};

Sunk sunk(const Mesh& mesh, double plan_mm2, double bed_mm, double surface_mm) {
    const double in_bed = volume_below_mm3(mesh, bed_mm), in_both = volume_below_mm3(mesh, surface_mm);
    return {std::max(plan_mm2 * bed_mm - in_bed, 0.0),
            std::max(plan_mm2 * (surface_mm - bed_mm) - (in_both - in_bed), 0.0)};
}

// How high the bed stands beside a piece.
double bed_beside_mm(const Piece& piece, const Field& field, double bed_rise, double surface_mm) {
    if (!field.grout) return surface_mm;
    const double back = piece.top_mm - piece.thickness_mm;
    const double face = piece.top_mm - proud_by_form_mm(piece, field.recess_mm);
    return std::min(back + bed_rise * std::max(face - back, 0.0), surface_mm);
}

std::uint32_t field_round(const SetStone& stone, const std::vector<Region>& regions) {
    const glm::dvec2 middle = centroid(stone.footprint_mm);
    // The field most of whose grout touches the footprint; the first listed of equals.
    double most = -1;
    std::uint32_t best = 0;
    const Region round = grow(region_of(stone.footprint_mm), 1.0, Corner::round);
    for (std::uint32_t f = 0; f < regions.size(); ++f) {
        const double touched =
            area_mm2(intersect(round, regions[f])) + (contains(regions[f], middle) ? 1e9 : 0);
        if (touched > most + 1e-6) most = touched, best = f;
    }
    return best;
}

}  // namespace

LaidVolumes laid_volumes(const Layout& layout, const Laying& laying, const std::vector<Region>& regions,
                         double bed_rise) {
    LaidVolumes out;
    out.fields.resize(layout.fields.size());
    out.solids.resize(laying.pieces.size() + laying.stones.size());
    const std::vector<double> heights = surface_heights(layout, laying, regions);
    std::vector<double> bed_moment(out.fields.size(), 0), under(bed_moment), covered(bed_moment);
    for (const Piece& piece : laying.pieces) {
        const double area = area_mm2(piece.outline_mm);
        covered[piece.field] += area;
        under[piece.field] += area * (piece.top_mm - piece.thickness_mm);
        bed_moment[piece.field] +=
            area * bed_beside_mm(piece, layout.fields[piece.field], bed_rise, heights[piece.field]);
    }
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        FieldFilling& field = out.fields[f];
        field.ground_mm2 = area_mm2(regions[f]);
        field.joint_mm2 = std::max(field.ground_mm2 - covered[f], 0.0);
        field.surface_mm = heights[f];
        field.bed_under_mm = covered[f] > 0 ? under[f] / covered[f] : 0;
        field.bed_mm = covered[f] > 0 ? bed_moment[f] / covered[f] : layout.panel.substrate.bed_mm;
    }
    for (const SetStone& stone : laying.stones) out.stone_field.push_back(field_round(stone, regions));

    std::vector<Sunk> parts(out.solids.size());
    tbb::parallel_for(std::size_t{0}, parts.size(), [&](std::size_t i) {
        if (i < laying.pieces.size()) {
            const Piece& piece = laying.pieces[i];
            const Mesh mesh = form_piece(piece, layout.stock[piece.material]);
            const double surface = heights[piece.field];
            out.solids[i] = measure_solid(mesh);
            parts[i] = sunk(mesh, area_mm2(piece.outline_mm),
                            bed_beside_mm(piece, layout.fields[piece.field], bed_rise, surface), surface);
        } else {
            const std::size_t s = i - laying.pieces.size();
            const SetStone& stone = laying.stones[s];
            const Mesh mesh = form_stone(stone, layout.stock[stone.material]);
            const FieldFilling& round = out.fields[out.stone_field[s]];
            out.solids[i] = measure_solid(mesh);
            parts[i] = sunk(mesh, area_mm2(stone.footprint_mm), round.bed_mm, round.surface_mm);
        }
    });
    for (std::size_t i = 0; i < parts.size(); ++i) {
        FieldFilling& field =
            out.fields[i < laying.pieces.size() ? laying.pieces[i].field
                                                : out.stone_field[i - laying.pieces.size()]];
        field.bed_mm3 += parts[i].bed_mm3;
        field.undercut_mm3 += parts[i].grout_mm3;
    }
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        FieldFilling& field = out.fields[f];
        field.bed_mm3 += field.joint_mm2 * field.bed_mm;
        if (!layout.fields[f].grout) {
            field.bed_mm3 += field.undercut_mm3;
            field.undercut_mm3 = 0;
        } else {
            field.grout_mm3 = field.joint_mm2 * field.depth_mm() + field.undercut_mm3;
        }
    }
    return out;
}

}  // namespace rakelight
