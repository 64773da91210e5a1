#include "renderer/light_meter.h"

#include <numbers>

#include "renderer/path.h"

namespace rakelight {

std::vector<glm::dvec3> illuminance_xyz(const World& world, const Rays& rays, std::span<const Emitter> lamps,
                                        const glm::vec3& at_mm, const glm::vec3& normal, int paths,
                                        std::uint32_t seed) {
    const LampField field(lamps);
    const Stage<Rays> stage{world, rays, field};
    const Basis basis(normal);
    std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0));
    std::vector<glm::dvec3> indirect = total;
    for (int i = 0; i < paths; ++i) {
        Sampler sampler(mix_word(seed), static_cast<std::uint32_t>(i));
        // Indirect light: cosine-distributed paths that skip the lamps' own faces.
        const glm::vec3 direction = basis.to_world(cosine_direction(sampler.next()));
        const Hit hit = rays.nearest({at_mm, kFar_mm, direction});
        const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
        if (field.meet(at_mm, direction, reach).lamp == kNoLamp) {
            Path path{.from_mm = at_mm, .direction = direction, .sampler = sampler};
            trace_paths(stage, std::span(&path, 1), indirect);
        }
        // Direct light: every lamp is aimed at.
        for (const Emitter& e : lamps) {
            const LampSample aim = aim_at(e, at_mm, sampler.next());
            const float cosine = glm::dot(aim.direction, normal);
            if (aim.pdf <= 0 || cosine <= 0 ||
                rays.blocked({at_mm, aim.distance_mm * 0.9999f, aim.direction}))
                continue;
            const std::array<float, 3> c = apply(e.weights, Bands(1.0f));
            total[e.group] += glm::dvec3(c[0], c[1], c[2]) * double(aim.cd_per_m2 * cosine / aim.pdf);
        }
    }
    for (std::size_t g = 0; g < total.size(); ++g)
        total[g] = (total[g] + indirect[g] * std::numbers::pi) / double(paths);
    return total;
}

std::vector<glm::dvec3> panel_illuminance_xyz(const World& world, const Rays& rays,
                                              std::span<const Emitter> lamps) {
    constexpr int kGrid = 3;
    constexpr float kInFront_mm = 20;
    const glm::vec3 up = glm::normalize(glm::vec3(0, 1, 0) - world.panel_normal * world.panel_normal.y);
    const glm::vec3 right = glm::cross(up, world.panel_normal);
    std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0));
    for (int i = 0; i < kGrid * kGrid; ++i) {
        const float x = (static_cast<float>(i % kGrid) + 0.5f) / kGrid - 0.5f;
        const float y = (static_cast<float>(i / kGrid) + 0.5f) / kGrid - 0.5f;
        const glm::vec3 at = right * (x * static_cast<float>(world.panel_size_mm.x)) +
                             up * (y * static_cast<float>(world.panel_size_mm.y)) +
                             world.panel_normal * (static_cast<float>(world.panel_size_mm.z) + kInFront_mm);
        const auto here = illuminance_xyz(world, rays, lamps, at, world.panel_normal, 1024,
                                          static_cast<std::uint32_t>(i) + 1);
        for (std::size_t g = 0; g < total.size(); ++g) total[g] += here[g] / double(kGrid * kGrid);
    }
    return total;
}

glm::dvec3 panel_white_xyz(const World& world, const Rays& rays, std::span<const Emitter> lamps) {
    glm::dvec3 white(0);
    for (const auto& xyz : panel_illuminance_xyz(world, rays, lamps)) white += xyz / std::numbers::pi;
    return white;
}

}  // namespace rakelight
