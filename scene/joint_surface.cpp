#include "scene/joint_surface.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>

#include "materials/noise.h"
#include "scene/flow.h"
#include "scene/heights.h"
#include "scene/region.h"

namespace rakelight {

namespace {

constexpr double kStep_mm = 0.8;
constexpr double kMostTriangles = 1e6;
constexpr std::uint32_t kNobody = 0xffffffffu;

struct Node {
    float distance_mm = 1e30f;  // to the nearest piece, negative inside it
    float stone_mm = 1e30f;     // to the nearest stone
    float level_sum = 0;        // heights of the pieces near by, weighted by nearness
    float weight_sum = 0;
    std::uint32_t piece = kNobody;
    std::array<std::uint32_t, 2> field{kNobody, kNobody};  // the two nearest fields
    std::array<float, 2> field_mm{1e30f, 1e30f};
    std::uint32_t owner = kNobody;
};

struct Sheet {
    Lattice lattice;
    glm::dvec2 panel_mm{0};
    std::vector<Node> nodes;
};

// Signed distance to a ring: negative inside.
double signed_distance_mm(const Ring& ring, const glm::dvec2& p) {
    double d = 1e300;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
        d = std::min(d, distance_mm(p, ring[j], ring[i]));
    return contains(ring, p) ? -d : d;
}

glm::dvec2 place(const Sheet& sheet, int x, int y) {
    return glm::min(sheet.lattice.at(x, y), sheet.panel_mm);
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

void note_field(Node& node, std::uint32_t field, float d) {
    const std::size_t slot = node.field[0] == field                ? 0
                             : node.field[1] == field              ? 1
                             : node.field_mm[0] > node.field_mm[1] ? 0
                                                                   : 1;
    if (d < node.field_mm[slot]) {
        node.field[slot] = field;
        node.field_mm[slot] = d;
    }
}

// Distances and levels, by strips of rows so that each node is written by one worker in the order of laying.
void measure(Sheet& sheet, const Layout& layout, const Laying& laying) {
    constexpr int kStrip = 48;
    const int strips = (sheet.lattice.rows + kStrip - 1) / kStrip;
    std::vector<std::vector<std::uint32_t>> of_strip(static_cast<std::size_t>(strips));
    const auto strip_of = [&](double y) {
        return std::clamp(
            static_cast<int>(std::floor((y - sheet.lattice.low_mm.y) / sheet.lattice.step_mm / kStrip)), 0,
            strips - 1);
    };
    for (std::uint32_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        const Box box = bounds(piece.outline_mm);
        const double margin = 1.3 * layout.fields[piece.field].joint_mm + 1.5;
        for (int s = strip_of(box.low.y - margin); s <= strip_of(box.high.y + margin); ++s)
            of_strip[static_cast<std::size_t>(s)].push_back(i);
    }
    tbb::parallel_for(0, strips, [&](int s) {
        const int first = s * kStrip, end = std::min(first + kStrip, sheet.lattice.rows);
        for (const auto i : of_strip[static_cast<std::size_t>(s)]) {
            const Piece& piece = laying.pieces[i];
            const double margin = 1.3 * layout.fields[piece.field].joint_mm + 1.5;
            const glm::dvec2 heart = centroid(piece.outline_mm);
            const glm::dvec2 lean = glm::tan(piece.tilt_rad);
            each_node_near(
                sheet, piece.outline_mm, margin, first, end, [&](std::size_t n, const glm::dvec2& p) {
                    const auto d = static_cast<float>(signed_distance_mm(piece.outline_mm, p));
                    if (d > static_cast<float>(margin)) return;
                    Node& node = sheet.nodes[n];
                    const float near = std::max(d, 0.0f) + 0.15f;
                    const float weight = 1 / (near * near);
                    node.level_sum += weight * static_cast<float>(piece.top_mm + glm::dot(lean, p - heart));
                    node.weight_sum += weight;
                    note_field(node, piece.field, d);
                    if (d < node.distance_mm) {
                        node.distance_mm = d;
                        node.piece = i;
                    }
                });
        }
        for (const auto& stone : laying.stones)
            each_node_near(sheet, stone.footprint_mm, 6, first, end, [&](std::size_t n, const glm::dvec2& p) {
                sheet.nodes[n].stone_mm = std::min(
                    sheet.nodes[n].stone_mm, static_cast<float>(signed_distance_mm(stone.footprint_mm, p)));
            });
    });
}

// Which field's grout a node is of; where no piece is near, that of the nearest node that has one.
void settle_owners(Sheet& sheet, const Layout& layout) {
    std::deque<std::size_t> open;
    for (std::size_t n = 0; n < sheet.nodes.size(); ++n) {
        Node& node = sheet.nodes[n];
        const std::size_t near = node.field_mm[0] <= node.field_mm[1] ? 0 : 1;
        if (node.field[near] == kNobody) continue;
        node.owner = node.field[near];
        const std::uint32_t other = node.field[1 - near];
        if (other != kNobody && other < node.owner) {
            const double joint = (layout.fields[other].joint_mm + layout.fields[node.owner].joint_mm) / 2;
            if (node.field_mm[1 - near] < 1.25 * joint) node.owner = other;
        }
        open.push_back(n);
    }
    const auto columns = static_cast<std::size_t>(sheet.lattice.columns);
    while (!open.empty()) {
        const std::size_t n = open.front();
        open.pop_front();
        const std::size_t x = n % columns;
        const auto offer = [&](std::size_t m) {
            if (sheet.nodes[m].owner != kNobody) return;
            sheet.nodes[m].owner = sheet.nodes[n].owner;
            open.push_back(m);
        };
        if (x > 0) offer(n - 1);
        if (x + 1 < columns) offer(n + 1);
        if (n >= columns) offer(n - columns);
        if (n + columns < sheet.nodes.size()) offer(n + columns);
    }
}

std::uint32_t tint_index(const Layout& layout, const std::string& name) {
    const auto it = std::find_if(layout.tints.begin(), layout.tints.end(),
                                 [&](const Material& m) { return m.name == name; });
    return static_cast<std::uint32_t>(it - layout.tints.begin());
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
        const bool open = field.grout.empty();
        f.tint = tint_index(layout, open ? field.bed : field.grout);
        double thinnest = 1e300;
        for (const auto& part : field.mix)
            for (const auto& m : layout.stock)
                if (m.name == part.material) thinnest = std::min(thinnest, piece_thickness_mm(field, m));
        // Squeezed-up bed stops a third up the piece: common practice, no published source.
        f.depth_mm =
            open ? std::max(field.recess_mm, 2 * thinnest / 3) : std::min(field.recess_mm, 0.9 * thinnest);
        if (f.tint < layout.tints.size())
            f.grain_mm = layout.tints[f.tint].kind == Kind::epoxy ? 0.015 : 0.06;
        f.half_joint_mm = field.joint_mm / 2;
        out.push_back(f);
    }
    return out;
}

float height_mm(const Node& node, const glm::dvec2& p, const Filling& filling, float plane_mm) {
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
    const float dive = std::clamp(-node.distance_mm - 2.0f, 0.0f, 3.0f);
    return std::max(level - depth + climb + collar + grain - dive, 0.2f);
}

}  // namespace

JointSurface form_joints(const Layout& layout, const Laying& laying) {
    JointSurface out;
    if (layout.fields.empty()) return out;
    Sheet sheet;
    sheet.panel_mm = {layout.width_mm, layout.height_mm};
    const double step =
        std::max(kStep_mm, std::sqrt(2 * layout.width_mm * layout.height_mm / kMostTriangles));
    const int across = static_cast<int>(std::ceil(layout.width_mm / step));
    // One step for both axes, fitted to the width; the topmost row of nodes is drawn in to the edge.
    sheet.lattice = {glm::dvec2(0), layout.width_mm / across, across + 1, 0};
    sheet.lattice.rows = static_cast<int>(std::ceil(layout.height_mm / sheet.lattice.step_mm - 1e-9)) + 1;
    sheet.nodes.resize(sheet.lattice.count());
    measure(sheet, layout, laying);
    settle_owners(sheet, layout);
    const auto filling = fillings(layout);
    const auto plane = static_cast<float>(face_plane_mm(layout));
    const Lattice& l = sheet.lattice;
    std::vector<glm::vec3> at(l.count());
    tbb::parallel_for(0, l.rows, [&](int y) {
        for (int x = 0; x < l.columns; ++x) {
            const std::size_t n = l.index(x, y);
            const glm::dvec2 p = place(sheet, x, y);
            const Filling none;
            const Filling& f = sheet.nodes[n].owner == kNobody ? none : filling[sheet.nodes[n].owner];
            at[n] = {glm::vec2(p), height_mm(sheet.nodes[n], p, f, plane)};
        }
    });
    std::vector<std::uint32_t> index(l.count(), kNobody);
    const auto vertex = [&](int x, int y) {
        const std::size_t n = l.index(x, y);
        if (index[n] == kNobody) {
            index[n] = static_cast<std::uint32_t>(out.mesh.positions_mm.size());
            const glm::vec3 dx =
                at[l.index(std::min(x + 1, l.columns - 1), y)] - at[l.index(std::max(x - 1, 0), y)];
            const glm::vec3 dy =
                at[l.index(x, std::min(y + 1, l.rows - 1))] - at[l.index(x, std::max(y - 1, 0))];
            out.mesh.positions_mm.push_back(at[n]);
            out.mesh.normals.push_back(glm::normalize(glm::cross(dx, dy)));
        }
        return index[n];
    };
    const auto tint_of = [&](std::size_t n) {
        return sheet.nodes[n].owner == kNobody ? 0u : filling[sheet.nodes[n].owner].tint;
    };
    const auto add = [&](const glm::ivec2& a, const glm::ivec2& b, const glm::ivec2& c) {
        // A triangle is of the tint of its node in the widest gap.
        std::size_t widest = l.index(a.x, a.y);
        for (const auto& q : {b, c})
            if (sheet.nodes[l.index(q.x, q.y)].distance_mm > sheet.nodes[widest].distance_mm)
                widest = l.index(q.x, q.y);
        out.mesh.triangles.emplace_back(vertex(a.x, a.y), vertex(b.x, b.y), vertex(c.x, c.y));
        out.triangle_tint.push_back(tint_of(widest));
    };
    const auto hidden =
        static_cast<float>(-1.5 * l.step_mm - 1.4);  // a chipped corner shows what is under it
    for (int y = 0; y + 1 < l.rows; ++y)
        for (int x = 0; x + 1 < l.columns; ++x) {
            const std::array<std::size_t, 4> n{l.index(x, y), l.index(x + 1, y), l.index(x, y + 1),
                                               l.index(x + 1, y + 1)};
            if (std::all_of(n.begin(), n.end(),
                            [&](std::size_t i) { return sheet.nodes[i].distance_mm < hidden; }))
                continue;
            add({x, y}, {x + 1, y}, {x + 1, y + 1});
            add({x, y}, {x + 1, y + 1}, {x, y + 1});
        }
    // The skirt: two triangles a step, facing outward.
    const auto skirt = [&](const glm::ivec2& a, const glm::ivec2& b, const glm::vec3& out_dir) {
        const auto start = static_cast<std::uint32_t>(out.mesh.positions_mm.size());
        for (const auto& q : {a, b}) {
            const glm::vec3 top = at[l.index(q.x, q.y)];
            out.mesh.positions_mm.push_back({top.x, top.y, 0});
            out.mesh.positions_mm.push_back(top);
            out.mesh.normals.insert(out.mesh.normals.end(), 2, out_dir);
        }
        out.mesh.triangles.emplace_back(start, start + 2, start + 3);
        out.mesh.triangles.emplace_back(start, start + 3, start + 1);
        out.triangle_tint.insert(out.triangle_tint.end(), 2, tint_of(l.index(a.x, a.y)));
    };
    for (int x = 0; x + 1 < l.columns; ++x) {
        skirt({x, 0}, {x + 1, 0}, {0, -1, 0});
        skirt({x + 1, l.rows - 1}, {x, l.rows - 1}, {0, 1, 0});
    }
    for (int y = 0; y + 1 < l.rows; ++y) {
        skirt({l.columns - 1, y}, {l.columns - 1, y + 1}, {1, 0, 0});
        skirt({0, y + 1}, {0, y}, {-1, 0, 0});
    }
    return out;
}

}  // namespace rakelight
