#include "scene/world/world.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

std::uint32_t pack_normal(const glm::vec3& unit) {
    const float l1 = std::abs(unit.x) + std::abs(unit.y) + std::abs(unit.z);
    glm::vec2 p = glm::vec2(unit) / l1;
    if (unit.z < 0)
        p = glm::vec2((1 - std::abs(p.y)) * (p.x >= 0 ? 1.0f : -1.0f),
                      (1 - std::abs(p.x)) * (p.y >= 0 ? 1.0f : -1.0f));
    const auto bits = [](float a) {
        return static_cast<std::uint32_t>(std::lround((std::clamp(a, -1.0f, 1.0f) + 1) * 32767.5f));
    };
    return bits(p.x) | bits(p.y) << 16;
}

Material roughened(Material material) {
    constexpr float kLeastRoughness = 0.3f;
    material.roughness = std::max(material.roughness, kLeastRoughness);
    material.leaf_roughness = std::max(material.leaf_roughness, kLeastRoughness);
    material.stretch = 1;
    return material;
}

bool has_gloss(const Material& material) {
    return material.index > 1 || material.leaf != Leaf::none;
}

std::uint32_t add_surface(World& world, Surface surface) {
    world.surfaces.push_back(std::move(surface));
    return static_cast<std::uint32_t>(world.surfaces.size() - 1);
}

void add(World& world, const Mesh& mesh, const glm::mat4& place, const Object& object) {
    const auto object_index = static_cast<std::uint32_t>(world.objects.size());
    world.objects.push_back(object);
    const auto first = static_cast<std::uint32_t>(world.positions_mm.size());
    for (const auto& p : mesh.positions_mm) world.positions_mm.emplace_back(place * glm::vec4(p, 1));
    std::vector<std::uint32_t> normals(mesh.normals.size());
    const glm::mat3 turn(place);
    for (std::size_t i = 0; i < normals.size(); ++i) normals[i] = pack_normal(turn * mesh.normals[i]);
    for (const auto& t : mesh.triangles) {
        world.triangles.push_back(t + first);
        world.packed_normals.push_back({{normals[t.x], normals[t.y], normals[t.z]}, object_index});
    }
}

void finish(World& world) {
    world.positions_mm.emplace_back(0);
}

}  // namespace rakelight
