#include "output/model/simplified.h"

#include <meshoptimizer.h>

namespace rakelight {

namespace {

// The error that edges are collapsed by is a mean of distances: of a sphere the farthest point lies up to 1.8
// times as far away.
constexpr double kFarthestOverMean = 2;

static_assert(sizeof(glm::uvec3) == 3 * sizeof(unsigned int) && sizeof(glm::vec3) == 3 * sizeof(float));

// Three points in three places. What is merely flat is needed to keep a mesh closed.
bool has_corners(const Mesh& mesh, const glm::uvec3& t) {
    const glm::vec3 &a = mesh.positions_mm[t.x], &b = mesh.positions_mm[t.y], &c = mesh.positions_mm[t.z];
    return a != b && b != c && c != a;
}

}  // namespace

Mesh simplified(const Mesh& mesh, double detail_mm) {
    if (mesh.triangles.empty()) return {};
    const std::size_t points = mesh.positions_mm.size(), indices = 3 * mesh.triangles.size();
    const float* at = &mesh.positions_mm.front().x;
    const unsigned int* old = &mesh.triangles.front().x;
    std::vector<glm::uvec3> triangles = mesh.triangles;
    if (detail_mm > 0) {
        const float scale = meshopt_simplifyScale(at, points, sizeof(glm::vec3));
        const std::size_t left =
            meshopt_simplify(&triangles.front().x, old, indices, at, points, sizeof(glm::vec3), 0,
                             static_cast<float>(detail_mm / kFarthestOverMean) / scale, 0, nullptr);
        triangles.resize(left / 3);
    }
    std::erase_if(triangles, [&](const glm::uvec3& t) { return !has_corners(mesh, t); });
    Mesh out;
    out.triangles = std::move(triangles);
    if (out.triangles.empty()) return {};
    std::vector<unsigned int> moved(points);
    unsigned int* now = &out.triangles.front().x;
    const std::size_t count = 3 * out.triangles.size();
    const std::size_t kept = meshopt_optimizeVertexFetchRemap(moved.data(), now, count, points);
    meshopt_remapIndexBuffer(now, now, count, moved.data());
    out.positions_mm.resize(kept);
    out.normals.resize(kept);
    meshopt_remapVertexBuffer(out.positions_mm.data(), at, points, sizeof(glm::vec3), moved.data());
    meshopt_remapVertexBuffer(out.normals.data(), mesh.normals.data(), points, sizeof(glm::vec3),
                              moved.data());
    return out;
}

}  // namespace rakelight
