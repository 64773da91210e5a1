#include "scene/world/world.h"

#include <tbb/parallel_for.h>

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

namespace {

std::uint16_t packed_edge(float edge_mm) {
    return static_cast<std::uint16_t>(std::lround(std::clamp(edge_mm * PackedEdges::kPerMm, 0.0f, 65535.0f)));
}

}  // namespace

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

std::uint32_t add_marks(World& world, const Marks& marks) {
    const auto at = std::find(world.marks.begin(), world.marks.end(), marks);
    const auto number = static_cast<std::uint32_t>(at - world.marks.begin());
    if (at == world.marks.end()) world.marks.push_back(marks);
    return number;
}

void add(World& world, const Mesh& mesh, const glm::mat4& place, const Object& object) {
    add(world, std::span(&mesh, 1), place, std::span(&object, 1));
}

void add(World& world, std::span<const Mesh> meshes, const glm::mat4& place,
         std::span<const Object> objects) {
    const auto first_object = static_cast<std::uint32_t>(world.objects.size());
    world.objects.insert(world.objects.end(), objects.begin(), objects.end());
    std::vector<std::size_t> corners{world.positions_mm.size()}, triangles{world.triangles.size()};
    std::size_t edges = world.edges.size();
    for (std::size_t m = 0; m < meshes.size(); ++m) {
        const Mesh& mesh = meshes[m];
        Object& object = world.objects[first_object + m];
        object.first_triangle = static_cast<std::uint32_t>(triangles.back());
        if (!mesh.edge_mm.empty()) {
            object.edges = static_cast<std::uint32_t>(edges);
            edges += mesh.triangles.size();
        }
        corners.push_back(corners.back() + mesh.positions_mm.size());
        triangles.push_back(triangles.back() + mesh.triangles.size());
    }
    world.edges.resize(edges);
    world.positions_mm.resize(corners.back());
    world.triangles.resize(triangles.back());
    world.packed_normals.resize(triangles.back());
    const glm::mat3 turn(place);
    tbb::parallel_for(std::size_t{0}, meshes.size(), [&](std::size_t m) {
        const Mesh& mesh = meshes[m];
        const auto object = first_object + static_cast<std::uint32_t>(m);
        const auto first = static_cast<std::uint32_t>(corners[m]);
        std::vector<std::uint32_t> normals(mesh.normals.size());
        for (std::size_t i = 0; i < normals.size(); ++i) {
            world.positions_mm[first + i] = glm::vec3(place * glm::vec4(mesh.positions_mm[i], 1));
            normals[i] = pack_normal(turn * mesh.normals[i]);
        }
        for (std::size_t k = 0; k < mesh.triangles.size(); ++k) {
            const glm::uvec3& t = mesh.triangles[k];
            world.triangles[triangles[m] + k] = t + first;
            world.packed_normals[triangles[m] + k] = {{normals[t.x], normals[t.y], normals[t.z]}, object};
            if (!mesh.edge_mm.empty())
                world.edges[world.objects[object].edges + k] = {{packed_edge(mesh.edge_mm[t.x]),
                                                                 packed_edge(mesh.edge_mm[t.y]),
                                                                 packed_edge(mesh.edge_mm[t.z]), 0}};
        }
    });
}

void finish(World& world) {
    world.positions_mm.emplace_back(0);
}

}  // namespace rakelight
