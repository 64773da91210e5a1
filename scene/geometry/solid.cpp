#include "scene/geometry/solid.h"

#include <array>

namespace rakelight {

namespace {

using Corners = std::array<glm::dvec3, 3>;

Corners corners(const Mesh& mesh, const glm::uvec3& t) {
    return {glm::dvec3(mesh.positions_mm[t.x]), glm::dvec3(mesh.positions_mm[t.y]),
            glm::dvec3(mesh.positions_mm[t.z])};
}

double six_volumes(const glm::dvec3& a, const glm::dvec3& b, const glm::dvec3& c) {
    return glm::dot(a, glm::cross(b, c));
}

}  // namespace

SolidMeasure measure_solid(const Mesh& mesh) {
    SolidMeasure solid;
    if (mesh.positions_mm.empty()) return solid;
    // Measured from a point of the body, so that little is lost to cancellation.
    const glm::dvec3 from(mesh.positions_mm.front());
    glm::dvec3 moment(0);
    for (const glm::uvec3& t : mesh.triangles) {
        const auto [a, b, c] = corners(mesh, t);
        const double six = six_volumes(a - from, b - from, c - from);
        solid.volume_mm3 += six / 6;
        moment += six / 24 * (a + b + c - 3.0 * from);
    }
    if (solid.volume_mm3 != 0) solid.centre_mm = from + moment / solid.volume_mm3;
    return solid;
}

double volume_below_mm3(const Mesh& mesh, double level_mm) {
    if (mesh.positions_mm.empty()) return 0;
    // With the apex in the plane of the cut, the lid that would close the part counts for nothing.
    const glm::dvec3 apex(glm::dvec2(mesh.positions_mm.front()), level_mm);
    double six = 0;
    for (const glm::uvec3& t : mesh.triangles) {
        const Corners all = corners(mesh, t);
        std::array<glm::dvec3, 4> kept;
        std::size_t count = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            const glm::dvec3 a = all[i] - apex, b = all[(i + 1) % 3] - apex;
            if (a.z <= 0) kept[count++] = a;
            if ((a.z <= 0) != (b.z <= 0)) kept[count++] = a + (b - a) * (a.z / (a.z - b.z));
        }
        for (std::size_t i = 2; i < count; ++i) six += six_volumes(kept[0], kept[i - 1], kept[i]);
    }
    return six / 6;
}

}  // namespace rakelight
