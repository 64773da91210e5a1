// A mesh made of closed rings of points, each strip between two of them.
#pragma once

#include "scene/geometry/mesh.h"

namespace rakelight {

/// Rings run counter-clockwise seen from the front; strips and fans face outward.
struct RingMesh {
    Mesh mesh;

    void add(const glm::vec3& p, const glm::vec3& normal) {
        mesh.positions_mm.push_back(p);
        mesh.normals.push_back(normal);
    }
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
    void fan(std::uint32_t ring, std::uint32_t centre, std::uint32_t around, bool up) {
        for (std::uint32_t i = 0; i < around; ++i) {
            const std::uint32_t j = (i + 1) % around;
            if (up)
                mesh.triangles.emplace_back(ring + i, ring + j, centre);
            else
                mesh.triangles.emplace_back(ring + j, ring + i, centre);
        }
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
