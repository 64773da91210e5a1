// What every mesh of the panel must be: closed, outward, with unit normals that agree with its triangles.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <map>
#include <utility>

#include "scene/geometry/mesh.h"

namespace rakelight {

/// Every edge, after welding equal positions, is walked once each way: closed and consistently wound.
inline void expect_closed(const Mesh& mesh) {
    std::map<std::array<float, 3>, int> weld;
    const auto id = [&](std::uint32_t i) {
        const auto& p = mesh.positions_mm[i];
        return weld.try_emplace({p.x, p.y, p.z}, static_cast<int>(weld.size())).first->second;
    };
    std::map<std::pair<int, int>, int> edges;
    for (const auto& t : mesh.triangles) {
        const int v[3] = {id(t.x), id(t.y), id(t.z)};
        for (int k = 0; k < 3; ++k) {
            ASSERT_NE(v[k], v[(k + 1) % 3]) << "a triangle without area";
            ++edges[{v[k], v[(k + 1) % 3]}];
        }
    }
    for (const auto& [edge, count] : edges) {
        ASSERT_EQ(count, 1);
        ASSERT_EQ(edges.count({edge.second, edge.first}), 1u);
    }
}

inline void expect_good_normals(const Mesh& mesh) {
    ASSERT_EQ(mesh.normals.size(), mesh.positions_mm.size());
    for (const auto& n : mesh.normals) ASSERT_NEAR(glm::length(n), 1, 1e-4);
}

}  // namespace rakelight
