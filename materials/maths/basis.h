// An orthonormal basis round a unit normal (Duff et al. 2017, "Building an Orthonormal Basis, Revisited",
// JCGT 6(1)).
#pragma once

#include <cmath>
#include <glm/glm.hpp>

namespace rakelight {

/// Two unit vectors that complete a unit normal to a right-handed frame.
struct Basis {
    glm::vec3 x, y, z;
    explicit Basis(const glm::vec3& n) : z(n) {
        const float sign = std::copysign(1.0f, n.z);
        const float a = -1.0f / (sign + n.z);
        const float b = n.x * n.y * a;
        x = {1 + sign * n.x * n.x * a, sign * b, -sign * n.x};
        y = {b, sign + n.y * n.y * a, -n.y};
    }
    glm::vec3 to_local(const glm::vec3& v) const { return {glm::dot(v, x), glm::dot(v, y), glm::dot(v, z)}; }
    glm::vec3 to_world(const glm::vec3& v) const { return v.x * x + v.y * y + v.z * z; }
};

}  // namespace rakelight
