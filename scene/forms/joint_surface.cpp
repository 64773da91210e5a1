#include "scene/forms/joint_surface.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "materials/maths/noise.h"
#include "scene/forms/joint_tint.h"
#include "scene/forms/joint_weave.h"
#include "scene/forms/piece_form.h"
#include "scene/geometry/lattice.h"
#include "scene/geometry/region.h"
#include "scene/model/half_joint.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

namespace {

constexpr double kStep_mm = 0.8;
constexpr double kMostTriangles = 1e6;
// Under a piece the sheet goes on as far as a rounded or chipped edge might show it, then dives and ends.
constexpr float kShown_mm = 1.1f;
constexpr float kHiddenBeyond_mm = 0.3f;
constexpr float kUnderStone_mm = 7;

struct Node {
    float distance_mm = 1e30f;  // to the nearest piece, negative inside it
    float stone_mm = 1e30f;     // to the nearest stone
    float level_sum = 0;        // heights of the pieces near by, weighted by nearness
    float weight_sum = 0;
};

struct Sheet {
    Lattice lattice;
    glm::dvec2 far_mm{0};  // the upper right corner
    // How far under the pieces it goes on: all nodes of a cell that a joint runs through must lie there, or
    // the joint between them would dive too.
    float shown_mm = kShown_mm;
    std::vector<Node> nodes;
    std::vector<NearFields> fields;  // one a node
};

// Signed distance to a ring: negative inside.
double signed_distance_mm(const Ring& ring, const glm::dvec2& p) {
    double d = 1e300;
    for (const auto& [a, b] : edges(ring)) d = std::min(d, distance_mm(p, a, b));
    return contains(ring, p) ? -d : d;
}

glm::dvec2 place(const Sheet& sheet, int x, int y) {
    return glm::min(sheet.lattice.at(x, y), sheet.far_mm);
}

template <class Visit>
void each_node_near(const Sheet& sheet, const Ring& ring, double margin_mm, int first_row, int end_row,
                    Visit&& visit) {
    const Box box = bounds(ring);
    const glm::dvec2 low = (box.low - margin_mm - sheet.lattice.low_mm) / sheet.lattice.step_mm;
    const glm::dvec2 high = (box.high + margin_mm - sheet.lattice.low_mm) / sheet.lattice.step_mm;
    for (int y = std::max(first_row, static_cast<int>(std::ceil(low.y)));
         y <= std::min(end_row - 1, static_cast<int>(high.y)); ++y)
        for (int x = std::max(0, static_cast<int>(std::ceil(low.x)));
             x <= std::min(sheet.lattice.columns - 1, static_cast<int>(high.x)); ++x)
            visit(sheet.lattice.index(x, y), place(sheet, x, y));
}

// Distances and levels, by strips of rows so that each node is written by one worker in the order of laying.
void measure(Sheet& sheet, const Layout& layout, const Laying& laying) {
    constexpr int kStrip = 48;
    const int strips = (sheet.lattice.rows + kStrip - 1) / kStrip;
    std::vector<std::vector<std::uint32_t>> of_strip(static_cast<std::size_t>(strips));
    const auto plane = static_cast<float>(face_plane_mm(layout));
    std::vector<double> margins;
    for (const auto& field : layout.fields)
        margins.push_back(static_cast<double>(farthest_reach_mm(layout.fields, field)) +
                          1.5 * sheet.lattice.step_mm);
    const auto strip_of = [&](double y) {
        return std::clamp(
            static_cast<int>(std::floor((y - sheet.lattice.low_mm.y) / sheet.lattice.step_mm / kStrip)), 0,
            strips - 1);
    };
    for (std::uint32_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        const Box box = bounds(piece.outline_mm);
        const double margin = margins[piece.field];
        for (int s = strip_of(box.low.y - margin); s <= strip_of(box.high.y + margin); ++s)
            of_strip[static_cast<std::size_t>(s)].push_back(i);
    }
    tbb::parallel_for(0, strips, [&](int s) {
        const int first = s * kStrip, end = std::min(first + kStrip, sheet.lattice.rows);
        for (const auto i : of_strip[static_cast<std::size_t>(s)]) {
            const Piece& piece = laying.pieces[i];
            const double margin = margins[piece.field];
            const glm::dvec2 heart = centroid(piece.outline_mm);
            const double plane_here =
                piece.top_mm - proud_by_form_mm(piece, layout.fields[piece.field].recess_mm);
            const bool lump = is_lump(piece.form);
            const glm::dvec2 lean = lump ? glm::dvec2(0) : glm::tan(piece.tilt_rad);
            each_node_near(sheet, piece.outline_mm, margin, first, end,
                           [&](std::size_t n, const glm::dvec2& p) {
                               const auto d = static_cast<float>(signed_distance_mm(piece.outline_mm, p));
                               if (d > static_cast<float>(margin)) return;
                               Node& node = sheet.nodes[n];
                               // The sponge follows the lower of two faces more than the higher, and never
                               // jumps.
                               const auto level = static_cast<float>(plane_here + glm::dot(lean, p - heart));
                               const float near = std::max(d, 0.0f) + 1.2f;
                               const float fade = 1 - std::max(d, 0.0f) / static_cast<float>(margin);
                               const float low = std::clamp((plane - level) / 0.45f, -4.0f, 4.0f);
                               const float weight = fade * fade * std::exp(low) / (near * near);
                               node.level_sum += weight * level;
                               node.weight_sum += weight;
                               sheet.fields[n].note(piece.field, d);
                               node.distance_mm = std::min(node.distance_mm, d);
                           });
        }
        for (const auto& stone : laying.stones)
            each_node_near(sheet, stone.footprint_mm, 6, first, end, [&](std::size_t n, const glm::dvec2& p) {
                sheet.nodes[n].stone_mm = std::min(
                    sheet.nodes[n].stone_mm, static_cast<float>(signed_distance_mm(stone.footprint_mm, p)));
            });
    });
}

struct Filling {
    std::uint32_t tint = 0;
    double depth_mm = 1;  // below the faces
    double grain_mm = 0;
    double half_joint_mm = 1;
};

std::vector<Filling> fillings(const Layout& layout) {
    std::vector<Filling> out;
    for (const auto& field : layout.fields) {
        Filling f;
        f.tint = filling_of(field);
        double thinnest = 1e300;
        for (const auto& part : field.mix)
            thinnest = std::min(thinnest, piece_thickness_mm(field, layout.stock[part.material]));
        // Squeezed-up bed stops a third to a half up the piece: common practice, no published source.
        if (field.fill > 0)
            f.depth_mm = (1 - field.fill) * thinnest;
        else
            f.depth_mm = field.grout ? std::min(field.recess_mm, 0.9 * thinnest)
                                     : std::max(field.recess_mm, 2 * thinnest / 3);
        f.grain_mm = layout.tints[f.tint].kind == Kind::epoxy ? 0.015 : 0.06;
        f.half_joint_mm = half_joint_mm(field.joint_mm);
        out.push_back(f);
    }
    return out;
}

float height_mm(const Node& node, const glm::dvec2& p, const Filling& filling, float plane_mm,
                float shown_mm) {
    // Level of the faces round about; far from all pieces that of the common plane.
    const float far_weight = 0.02f;
    const float level = (node.level_sum + far_weight * plane_mm) / (node.weight_sum + far_weight);
    const auto depth = static_cast<float>(filling.depth_mm);
    // Concave: the filling clings to the sides and climbs a little; round stones more. A joint that the
    // sheet's step can hardly resolve is left nearly flat, or its edges would look torn.
    const float resolved = std::min(1.0f, static_cast<float>(filling.half_joint_mm / (1.5 * kStep_mm)));
    const float along = std::clamp(node.distance_mm / static_cast<float>(filling.half_joint_mm), 0.0f, 1.0f);
    const float climb = 0.3f * resolved * std::min(depth, 2.0f) * (1 - along) * (1 - along);
    const float collar = 0.6f * std::exp(-std::max(node.stone_mm, 0.0f) / 1.2f);
    const glm::vec3 q(glm::vec2(p), 0.5f);
    const float grain = static_cast<float>(filling.grain_mm) *
                        (layered_noise(q * 1.1f, 2, 77).value + 1.5f * gradient_noise(q * 0.12f, 78).value);
    // Well under a piece the sheet dives, so that a hollow face never meets it; not at its sides, where it is
    // seen.
    const float dive = std::clamp(2 * (-node.distance_mm - shown_mm), 0.0f, 4.0f);
    return std::max(level - depth + climb + collar + grain - dive, 0.2f);
}

bool hidden(const Node& node, float shown_mm) {
    return node.distance_mm < -shown_mm - kHiddenBeyond_mm || node.stone_mm < -kUnderStone_mm;
}

// Of one panel of the work.
JointSurface joints_on(const Layout& layout, const Laying& laying, const PanelSpan& span, double finest_mm) {
    const double width = span.width_mm(), height = layout.panel.height_mm;
    Sheet sheet;
    sheet.far_mm = {span.right_mm, height};
    const double step = std::max({kStep_mm, 0.7 * finest_mm, std::sqrt(2 * width * height / kMostTriangles)});
    const int across = static_cast<int>(std::ceil(width / step));
    // One step for both axes, fitted to the width; the topmost row of nodes is drawn in to the edge.
    sheet.lattice = {{span.left_mm, 0}, width / across, across + 1, 0};
    sheet.lattice.rows = static_cast<int>(std::ceil(height / sheet.lattice.step_mm - 1e-9)) + 1;
    sheet.shown_mm = std::max(kShown_mm, static_cast<float>(1.42 * sheet.lattice.step_mm));
    sheet.nodes.resize(sheet.lattice.count());
    sheet.fields.resize(sheet.lattice.count());
    measure(sheet, layout, laying);
    settle_owners(layout.fields, sheet.lattice, sheet.fields);
    const auto filling = fillings(layout);
    const auto plane = static_cast<float>(face_plane_mm(layout));
    const Lattice& l = sheet.lattice;
    JointNodes nodes{l,
                     sheet.fields,
                     std::vector<glm::vec3>(l.count()),
                     std::vector<float>(l.count()),
                     std::vector<char>(l.count()),
                     {}};
    for (const auto& f : filling) nodes.tint_of_field.push_back(f.tint);
    tbb::parallel_for(0, l.rows, [&](int y) {
        for (int x = 0; x < l.columns; ++x) {
            const std::size_t n = l.index(x, y);
            const glm::dvec2 p = place(sheet, x, y);
            const Filling none;
            const std::uint32_t owner = sheet.fields[n].owner;
            nodes.at_mm[n] = {glm::vec2(p),
                              height_mm(sheet.nodes[n], p, owner == kNoField ? none : filling[owner], plane,
                                        sheet.shown_mm)};
            nodes.edge_mm[n] = std::min(sheet.nodes[n].distance_mm, sheet.nodes[n].stone_mm);
            nodes.hidden[n] = hidden(sheet.nodes[n], sheet.shown_mm);
        }
    });
    return weave_joints(layout, nodes);
}

void append(JointSurface& all, JointSurface&& more) {
    if (all.mesh.positions_mm.empty()) {
        all = std::move(more);
        return;
    }
    const auto first = static_cast<std::uint32_t>(all.mesh.positions_mm.size());
    const auto put = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
    put(all.mesh.positions_mm, more.mesh.positions_mm);
    put(all.mesh.normals, more.mesh.normals);
    put(all.mesh.edge_mm, more.mesh.edge_mm);
    for (const glm::uvec3& triangle : more.mesh.triangles) all.mesh.triangles.push_back(triangle + first);
    put(all.triangle_tint, more.triangle_tint);
}

}  // namespace

JointSurface form_joints(const Layout& layout, const Laying& laying, double finest_mm) {
    JointSurface all;
    if (layout.fields.empty()) return all;
    for (const PanelSpan& span : panel_spans(layout.panel))
        append(all, joints_on(layout, laying, span, finest_mm));
    return all;
}

}  // namespace rakelight
