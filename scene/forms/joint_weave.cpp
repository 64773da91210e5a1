#include "scene/forms/joint_weave.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr std::uint32_t kNobody = 0xffffffffu;
constexpr float kFarFromPieces_mm = 100;

// Makes the triangles, and cuts those through which the seam between two tints runs.
struct Weave {
    const Layout& layout;
    const JointNodes& nodes;
    std::vector<std::uint32_t> index;  // of a node's vertex
    std::map<std::pair<std::size_t, std::size_t>, std::uint32_t> seams;
    JointSurface out;

    std::uint32_t tint_of(std::size_t n) const {
        const std::uint32_t owner = nodes.fields[n].owner;
        return owner == kNoField ? 0u : nodes.tint_of_field[owner];
    }

    glm::vec3 normal_of(std::size_t n) const {
        const Lattice& l = nodes.lattice;
        const auto columns = static_cast<std::size_t>(l.columns);
        const std::size_t x = n % columns, y = n / columns;
        const glm::vec3 dx = nodes.at_mm[x + 1 < columns ? n + 1 : n] - nodes.at_mm[x > 0 ? n - 1 : n];
        const glm::vec3 dy = nodes.at_mm[y + 1 < static_cast<std::size_t>(l.rows) ? n + columns : n] -
                             nodes.at_mm[y > 0 ? n - columns : n];
        return glm::normalize(glm::cross(dx, dy));
    }

    std::uint32_t vertex(std::size_t n) {
        if (index[n] == kNobody) {
            index[n] = static_cast<std::uint32_t>(out.mesh.positions_mm.size());
            out.mesh.positions_mm.push_back(nodes.at_mm[n]);
            out.mesh.normals.push_back(normal_of(n));
            out.mesh.edge_mm.push_back(nodes.edge_mm[n]);
        }
        return index[n];
    }

    // Where the seam crosses the way between two nodes.
    std::uint32_t seam(std::size_t a, std::size_t b) {
        if (a > b) std::swap(a, b);
        const auto [it, fresh] =
            seams.try_emplace({a, b}, static_cast<std::uint32_t>(out.mesh.positions_mm.size()));
        if (fresh) {
            const float t = seam_between(layout.fields, nodes.fields[a], nodes.fields[b]);
            out.mesh.positions_mm.push_back(glm::mix(nodes.at_mm[a], nodes.at_mm[b], t));
            out.mesh.normals.push_back(glm::normalize(glm::mix(normal_of(a), normal_of(b), t)));
            out.mesh.edge_mm.push_back(glm::mix(nodes.edge_mm[a], nodes.edge_mm[b], t));
        }
        return it->second;
    }

    void put(const glm::uvec3& triangle, std::uint32_t tint) {
        out.mesh.triangles.push_back(triangle);
        out.triangle_tint.push_back(tint);
    }

    void add(std::size_t a, std::size_t b, std::size_t c) {
        std::array<std::size_t, 3> n{a, b, c};
        const auto tint = [&](std::size_t i) { return tint_of(n[i]); };
        if (tint(0) == tint(1) && tint(1) == tint(2)) return put({vertex(a), vertex(b), vertex(c)}, tint(0));
        if (tint(0) != tint(1) && tint(1) != tint(2) && tint(2) != tint(0)) return add_meeting(n);
        while (tint(1) != tint(2)) std::rotate(n.begin(), n.begin() + 1, n.end());  // the first stands alone
        const std::uint32_t p = seam(n[0], n[1]), q = seam(n[2], n[0]);
        put({vertex(n[0]), p, q}, tint(0));
        put({p, vertex(n[1]), vertex(n[2])}, tint(1));
        put({p, vertex(n[2]), q}, tint(1));
    }

    // Three tints meet in one triangle.
    void add_meeting(const std::array<std::size_t, 3>& n) {
        const auto middle = static_cast<std::uint32_t>(out.mesh.positions_mm.size());
        out.mesh.positions_mm.push_back((nodes.at_mm[n[0]] + nodes.at_mm[n[1]] + nodes.at_mm[n[2]]) / 3.0f);
        out.mesh.normals.push_back(glm::normalize(normal_of(n[0]) + normal_of(n[1]) + normal_of(n[2])));
        out.mesh.edge_mm.push_back((nodes.edge_mm[n[0]] + nodes.edge_mm[n[1]] + nodes.edge_mm[n[2]]) / 3);
        for (std::size_t i = 0; i < 3; ++i) {
            const std::uint32_t to_next = seam(n[i], n[(i + 1) % 3]), to_last = seam(n[(i + 2) % 3], n[i]);
            put({vertex(n[i]), to_next, middle}, tint_of(n[i]));
            put({vertex(n[i]), middle, to_last}, tint_of(n[i]));
        }
    }

    // The skirt along the panel's edge, facing `outward`; the seam goes down it too.
    void add_skirt(std::size_t a, std::size_t b, const glm::vec3& outward) {
        const auto side = [&](const glm::vec3& from, const glm::vec3& to, std::uint32_t tint) {
            const auto start = static_cast<std::uint32_t>(out.mesh.positions_mm.size());
            for (const auto& top : {from, to}) {
                out.mesh.positions_mm.push_back({top.x, top.y, 0});
                out.mesh.positions_mm.push_back(top);
                out.mesh.normals.insert(out.mesh.normals.end(), 2, outward);
                out.mesh.edge_mm.insert(out.mesh.edge_mm.end(), 2, kFarFromPieces_mm);
            }
            put({start, start + 2, start + 3}, tint);
            put({start, start + 3, start + 1}, tint);
        };
        if (tint_of(a) == tint_of(b)) return side(nodes.at_mm[a], nodes.at_mm[b], tint_of(a));
        const glm::vec3 between = out.mesh.positions_mm[seam(a, b)];
        side(nodes.at_mm[a], between, tint_of(a));
        side(between, nodes.at_mm[b], tint_of(b));
    }
};

}  // namespace

JointSurface weave_joints(const Layout& layout, const JointNodes& nodes) {
    const Lattice& l = nodes.lattice;
    Weave weave{layout, nodes, std::vector<std::uint32_t>(l.count(), kNobody), {}, {}};
    for (int y = 0; y + 1 < l.rows; ++y)
        for (int x = 0; x + 1 < l.columns; ++x) {
            const std::array<std::size_t, 4> n{l.index(x, y), l.index(x + 1, y), l.index(x, y + 1),
                                               l.index(x + 1, y + 1)};
            if (std::all_of(n.begin(), n.end(), [&](std::size_t i) { return nodes.hidden[i] != 0; }))
                continue;
            // Data-dependent triangulation (Dyn, Levin and Rippa 1990): cut along the flatter diagonal, so
            // that a joint's slopes run straight along it and show no teeth in raking light.
            const auto climbs = [&](std::size_t a, std::size_t b) {
                return std::abs(nodes.at_mm[n[b]].z - nodes.at_mm[n[a]].z);
            };
            const bool rising = climbs(0, 3) <= climbs(1, 2);
            weave.add(n[0], n[1], n[rising ? 3 : 2]);
            weave.add(n[rising ? 0 : 1], n[3], n[2]);
        }
    for (int x = 0; x + 1 < l.columns; ++x) {
        weave.add_skirt(l.index(x, 0), l.index(x + 1, 0), {0, -1, 0});
        weave.add_skirt(l.index(x + 1, l.rows - 1), l.index(x, l.rows - 1), {0, 1, 0});
    }
    for (int y = 0; y + 1 < l.rows; ++y) {
        weave.add_skirt(l.index(l.columns - 1, y), l.index(l.columns - 1, y + 1), {1, 0, 0});
        weave.add_skirt(l.index(0, y + 1), l.index(0, y), {-1, 0, 0});
    }
    return std::move(weave.out);
}

Mesh part_of(const JointSurface& joints, std::uint32_t tint) {
    Mesh part;
    std::vector<std::uint32_t> index(joints.mesh.positions_mm.size(), kNobody);
    for (std::size_t t = 0; t < joints.mesh.triangles.size(); ++t) {
        if (joints.triangle_tint[t] != tint) continue;
        glm::uvec3 triangle = joints.mesh.triangles[t];
        for (int k = 0; k < 3; ++k) {
            std::uint32_t& own = index[triangle[k]];
            if (own == kNobody) {
                own = static_cast<std::uint32_t>(part.positions_mm.size());
                part.positions_mm.push_back(joints.mesh.positions_mm[triangle[k]]);
                part.normals.push_back(joints.mesh.normals[triangle[k]]);
                part.edge_mm.push_back(joints.mesh.edge_mm[triangle[k]]);
            }
            triangle[k] = own;
        }
        part.triangles.push_back(triangle);
    }
    return part;
}

}  // namespace rakelight
