// A mesh made of closed rings of points, each strip between two of them.
#pragma once

#include "scene/geometry/mesh.h"

namespace rakelight {

/// Rings run counter-clockwise seen from the front; strips and fans face outward.
struct RingMesh {
    Mesh mesh;

    /// Adds a vertex; `normal` is unit.
    void add(const glm::vec3& p, const glm::vec3& normal) {
        mesh.positions_mm.push_back(p);
        mesh.normals.push_back(normal);
    }
    /// The index of the vertex to be added next.
    std::uint32_t next() const { return static_cast<std::uint32_t>(mesh.positions_mm.size()); }
    /// Two rings of `around` points already added, outer (or lower) first.
    void strip(std::uint32_t outer, std::uint32_t inner, std::uint32_t around) {
        for (std::uint32_t i = 0; i < around; ++i) {
            const std::uint32_t j = (i + 1) % around;
            mesh.triangles.emplace_back(outer + i, outer + j, inner + j);
            mesh.triangles.emplace_back(outer + i, inner + j, inner + i);
        }
    }
    /// The same where the inner ring has half the points of the outer.
    void halving_strip(std::uint32_t outer, std::uint32_t inner, std::uint32_t around) {
        for (std::uint32_t i = 0; i < around / 2; ++i) {
            const std::uint32_t j = (i + 1) % (around / 2), o = outer + 2 * i,
                                next_o = outer + (2 * i + 2) % around;
            mesh.triangles.emplace_back(o, o + 1, inner + i);
            mesh.triangles.emplace_back(o + 1, next_o, inner + j);
            mesh.triangles.emplace_back(o + 1, inner + j, inner + i);
        }
    }
    /// Joins a ring of `around` points to a point, `centre`, all already added: facing up when the ring runs
    /// counter-clockwise seen from above and `up` is set, else down.
    void fan(std::uint32_t ring, std::uint32_t centre, std::uint32_t around, bool up) {
        for (std::uint32_t i = 0; i < around; ++i) {
            const std::uint32_t j = (i + 1) % around;
            if (up)
                mesh.triangles.emplace_back(ring + i, ring + j, centre);
            else
                mesh.triangles.emplace_back(ring + j, ring + i, centre);
        }
    }
    /// Closes a ring of points from `ring` to the last with a fan that faces down.
    void close_below(std::uint32_t ring, const glm::vec3& centre) {
        const std::uint32_t at = next();
        add(centre, {0, 0, -1});
        fan(ring, at, at - ring, false);
    }
};

/// Rings that follow one another up a side and over a face, each joined to the one before; every ring has all
/// points of the first, or each second, fourth or eighth.
struct RingChain {
    RingMesh& rings;
    std::uint32_t first_around;
    std::uint32_t last;
    std::uint32_t around;
    std::uint32_t every = 1;

    /// The first ring is the next `points` points to be added.
    RingChain(RingMesh& m, std::uint32_t points)
        : rings(m), first_around(points), last(m.next()), around(points) {}
    /// Whether a ring shrunk so far has points so close that half of them will do.
    bool crowded(float shrink) const { return shrink * static_cast<float>(every) < 0.72f; }
    /// Of how many points of the first ring the next ring is to take one.
    std::uint32_t next_every(bool thin_out) const { return thin_out && every < 8 ? 2 * every : every; }
    /// Joins a ring already added, which has each `of_every`-th point: as many as the last, or half of them.
    void join(std::uint32_t ring, std::uint32_t of_every = 1) {
        if (of_every > every)
            rings.halving_strip(last, ring, around);
        else
            rings.strip(last, ring, around);
        every = of_every;
        around = first_around / every;
        last = ring;
    }
    /// Closes the last ring with a fan that faces up.
    void close_above(const glm::vec3& centre, const glm::vec3& normal) {
        const std::uint32_t at = rings.next();
        rings.add(centre, normal);
        rings.fan(last, at, around, true);
    }
};

/// Sets every normal to the mean of its triangles' own, weighted by area.
inline void smooth_normals(Mesh& mesh) {
    mesh.normals.assign(mesh.positions_mm.size(), glm::vec3(0));
    for (const auto& t : mesh.triangles) {
        const glm::vec3 n = glm::cross(mesh.positions_mm[t.y] - mesh.positions_mm[t.x],
                                       mesh.positions_mm[t.z] - mesh.positions_mm[t.x]);
        for (int k = 0; k < 3; ++k) mesh.normals[t[k]] += n;
    }
    for (auto& n : mesh.normals) n = glm::length(n) > 0 ? glm::normalize(n) : glm::vec3(0, 0, 1);
}

}  // namespace rakelight
