#include "renderer/marked.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

// Faces that lean farther are sides, which show no pattern of the sheet.
constexpr float kFace = 0.6f;

// A ray bent into glass by Snell's law.
glm::vec3 bent(const glm::vec3& direction, const glm::vec3& normal, float index) {
    const float in = -glm::dot(direction, normal), ratio = 1 / index;
    const float left = 1 - ratio * ratio * (1 - in * in);
    return ratio * direction + (ratio * in - std::sqrt(std::max(left, 0.f))) * normal;
}

glm::vec3 nearest_axis(const glm::vec3& v) {
    const glm::vec3 a = glm::abs(v);
    if (a.z >= a.x && a.z >= a.y) return {0, 0, std::copysign(1.f, v.z)};
    if (a.x >= a.y) return {std::copysign(1.f, v.x), 0, 0};
    return {0, std::copysign(1.f, v.y), 0};
}

}  // namespace

MarkedLook marked_look(const World& world, const Object& object, const MarkedHit& hit) {
    const Marks& marks = world.marks[object.marks];
    const glm::vec3 up = object.upright ? nearest_axis(hit.normal) : world.panel_normal;
    const glm::vec3 flat = object.along - up * glm::dot(object.along, up);
    const float length = std::sqrt(std::max(glm::dot(flat, flat), 1e-6f));
    const glm::vec3 row = flat * (1 / length), beside = glm::cross(up, row);
    const glm::vec3 x = row * object.sheet.x + beside * object.sheet.y, y = glm::cross(up, x);
    const glm::vec3 at = hit.at_mm + object.noise_shift_mm;
    const Surface& own = world.surfaces[object.surface];
    const glm::vec3 down = bent(hit.direction, hit.normal, own.interface ? own.interface->index : 1);
    const SeenMarking look =
        look_at(marks, {.at_mm = {glm::dot(at, x), glm::dot(at, y), glm::dot(at, up)},
                        .down = {glm::dot(down, x), glm::dot(down, y), glm::dot(down, up)},
                        .edge_mm = hit.edge_mm,
                        .inward = {glm::dot(hit.inward, x), glm::dot(hit.inward, y)},
                        .seed = object.seed});
    MarkedLook r{&own + look.step, look.scale, hit.normal};
    if (glm::dot(hit.normal, up) > kFace && glm::dot(look.slope, look.slope) > 0) {
        glm::vec3 n = glm::normalize(hit.normal - look.slope.x * x - look.slope.y * y);
        constexpr float kLeastCosine = 1e-2f;  // bent back until the ray sees its front
        const float lacking = kLeastCosine + glm::dot(n, hit.direction);
        if (lacking > 0) n = glm::normalize(n - hit.direction * lacking);
        r.normal = n;
    }
    return r;
}

}  // namespace rakelight
