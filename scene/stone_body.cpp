#include "scene/stone_body.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "materials/noise.h"
#include "scene/forms.h"
#include "scene/hash.h"
#include "scene/region.h"
#include "scene/relief.h"

namespace rakelight {

namespace {

// An icosahedron whose triangles are split in four `level` times.
Mesh sphere_of_directions(int level) {
    const float g = 1.61803398875f;
    Mesh m;
    m.positions_mm = {{-1, g, 0},  {1, g, 0},  {-1, -g, 0}, {1, -g, 0}, {0, -1, g},  {0, 1, g},
                      {0, -1, -g}, {0, 1, -g}, {g, 0, -1},  {g, 0, 1},  {-g, 0, -1}, {-g, 0, 1}};
    m.triangles = {{0, 11, 5},  {0, 5, 1},  {0, 1, 7},  {0, 7, 10}, {0, 10, 11}, {1, 5, 9}, {5, 11, 4},
                   {11, 10, 2}, {10, 7, 6}, {7, 1, 8},  {3, 9, 4},  {3, 4, 2},   {3, 2, 6}, {3, 6, 8},
                   {3, 8, 9},   {4, 9, 5},  {2, 4, 11}, {6, 2, 10}, {8, 6, 7},   {9, 8, 1}};
    for (auto& p : m.positions_mm) p = glm::normalize(p);
    for (int l = 0; l < level; ++l) {
        std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middle;
        const auto between = [&](std::uint32_t a, std::uint32_t b) {
            const auto [it, fresh] =
                middle.try_emplace(std::minmax(a, b), static_cast<std::uint32_t>(m.positions_mm.size()));
            if (fresh) m.positions_mm.push_back(glm::normalize(m.positions_mm[a] + m.positions_mm[b]));
            return it->second;
        };
        std::vector<glm::uvec3> finer;
        finer.reserve(4 * m.triangles.size());
        for (const auto& t : m.triangles) {
            const std::uint32_t a = between(t.x, t.y), b = between(t.y, t.z), c = between(t.z, t.x);
            finer.insert(finer.end(), {{t.x, a, c}, {t.y, b, a}, {t.z, c, b}, {a, b, c}});
        }
        m.triangles = std::move(finer);
    }
    return m;
}

glm::vec3 direction(Chance& chance) {
    const double z = chance.within(-1, 1);
    const double turn = chance.within(0, 6.283185307179586);
    const double r = std::sqrt(1 - z * z);
    return {static_cast<float>(r * std::cos(turn)), static_cast<float>(r * std::sin(turn)),
            static_cast<float>(z)};
}

// Reach of a broken chunk before its fine detail, in units of its half size.
class Chunk {
  public:
    Chunk(FaceKind kind, std::uint64_t seed)
        : conchoidal_(kind == FaceKind::lumpy || kind == FaceKind::fused) {
        Chance chance(seed);
        sharpness_ = kind == FaceKind::pitted ? 9.0f : kind == FaceKind::worn ? 7.0f : 26.0f;
        for (int i = 0; i < (conchoidal_ ? 9 : 16); ++i)
            planes_.emplace_back(direction(chance), chance.within(0.68, 1.0));
        // A closed body whatever chance brings.
        for (int axis = 0; axis < 3; ++axis)
            for (const float side : {-1.0f, 1.0f}) {
                glm::vec3 n(0);
                n[axis] = side;
                planes_.emplace_back(n, chance.within(0.9, 1.05));
            }
        if (conchoidal_)
            for (int i = 0; i < 9; ++i) {
                const auto radius = static_cast<float>(chance.within(0.7, 1.6));
                scoops_.emplace_back(
                    direction(chance) * (radius + static_cast<float>(chance.within(0.62, 0.86))), radius);
            }
    }
    float reach(const glm::vec3& dir) const {
        float sum = 0;
        for (const auto& plane : planes_) {
            const float facing = glm::dot(glm::vec3(plane), dir) / plane.w;
            if (facing > 0.02f) sum += std::pow(facing, sharpness_);
        }
        float reach = std::pow(sum, -1 / sharpness_);
        for (const auto& scoop : scoops_) {
            const glm::vec3 c(scoop);
            const float along = glm::dot(c, dir);
            const float inside = along * along - glm::dot(c, c) + scoop.w * scoop.w;
            if (along <= 0 || inside <= 0) continue;
            // Waves run out from where the blow fell, as on broken bottle glass.
            const float hit = along - std::sqrt(inside);
            const float from_blow = glm::distance(hit * dir, c - scoop.w * glm::normalize(c) * 0.9f);
            reach = std::min(reach, hit + 0.008f * std::sin(26 * from_blow) * std::exp(-2 * from_blow));
        }
        return reach;
    }

  private:
    bool conchoidal_;
    float sharpness_ = 26;
    std::vector<glm::vec4> planes_;  // unit normal, distance
    std::vector<glm::vec4> scoops_;  // centre, radius
};

float pit(const glm::vec3& p, float wave_mm, float depth_mm, std::uint32_t seed) {
    const CellSample c = cell_noise(p / wave_mm, seed);
    const float own = 0.32f + 0.22f * static_cast<float>(c.id >> 9 & 255u) / 255.0f;
    const float u = c.nearest / own;
    return u < 1 ? -depth_mm * std::sqrt(1 - u * u) : 0.0f;
}

// Fine detail along the direction, mm.
float detail_mm(FaceKind kind, bool pebble, const glm::vec3& p, float size_mm, std::uint32_t seed) {
    const auto lumps = [&](float wave_mm, int octaves, std::uint32_t layer) {
        return layered_noise(p * (2 / wave_mm) + 17.3f, octaves, seed + layer).value;
    };
    float d = 0;
    if (kind == FaceKind::pitted) {
        d += 0.05f * size_mm * lumps(0.5f * size_mm, 3, 1);
        d += pit(p, 5.0f, 1.5f, seed + 11) + pit(p, 2.4f, 0.8f, seed + 12) + pit(p, 1.5f, 0.45f, seed + 13);
    } else if (pebble || kind == FaceKind::worn) {
        d += 0.035f * size_mm * lumps(0.8f * size_mm, 2, 1) + 0.02f * lumps(1.2f, 2, 2);
    } else if (kind == FaceKind::lumpy || kind == FaceKind::fused) {
        d += 0.02f * size_mm * lumps(0.4f * size_mm, 2, 1) + 0.08f * lumps(3, 2, 2);
    } else {
        d += 0.035f * size_mm * lumps(0.45f * size_mm, 4, 1) + 0.12f * lumps(2.2f, 3, 2);
        if (kind == FaceKind::riven) {  // bedding shows as steps round the stone
            const float bed = p.z / 1.6f + lumps(9, 1, 3);
            const float u = bed - std::floor(bed);
            d += 0.35f * (u < 0.7f ? u / 0.7f : (1 - u) / 0.3f);
        }
    }
    return d;
}

}  // namespace

Mesh stone_body(const SetStone& set, const Material& material, int level) {
    const PlacedStone& stone = set.stone;
    const bool pebble = stone.form == "pebble";
    const FaceKind kind = face_kind(material);
    const std::uint64_t seed = hash_combine(stone.seed, hash_text(stone.material));
    const auto noise_seed = static_cast<std::uint32_t>(seed);
    const Chunk chunk(kind, seed);
    Chance chance(hash_combine(seed, 5));
    const glm::vec3 skew(chance.within(-0.12, 0.12), chance.within(-0.12, 0.12), chance.within(-0.08, 0.08));
    const glm::vec3 size(stone.size_mm);
    const float mean_size = std::cbrt(size.x * size.y * size.z);
    Mesh m = sphere_of_directions(level);
    Box plan;
    float low = 1e30f, high = -1e30f;
    for (auto& p : m.positions_mm) {
        const glm::vec3 dir = p;
        float reach = 1;
        if (pebble) {
            constexpr float e = 2.3f;
            reach = std::pow(
                std::pow(std::abs(dir.x), e) + std::pow(std::abs(dir.y), e) + std::pow(std::abs(dir.z), e),
                -1 / e);
            reach *= 1 + glm::dot(skew, dir);  // an egg rather than a lozenge
        } else {
            reach = chunk.reach(dir);
        }
        p = reach * dir * size * 0.5f;
        p += glm::normalize(p) * detail_mm(kind, pebble, p, mean_size, noise_seed);
        plan.add(glm::dvec2(p));
        low = std::min(low, p.z);
        high = std::max(high, p.z);
    }
    // Brought to the size asked for, turned, and set to its height.
    const glm::vec3 from(glm::vec2(plan.low + plan.high) / 2.0f, (low + high) / 2);
    const glm::vec3 scale = size / glm::vec3(glm::vec2(plan.size()), high - low);
    const auto turn = static_cast<float>(glm::radians(stone.turn_deg));
    const float c = std::cos(turn), s = std::sin(turn);
    for (auto& p : m.positions_mm) {
        const glm::vec3 q = (p - from) * scale;
        p = glm::vec3(c * q.x - s * q.y, s * q.x + c * q.y, q.z) +
            glm::vec3(glm::vec2(stone.at_mm), static_cast<float>(set.top_mm) - size.z / 2);
    }
    m.normals.assign(m.positions_mm.size(), glm::vec3(0));
    for (const auto& t : m.triangles) {
        const glm::vec3 n =
            glm::cross(m.positions_mm[t.y] - m.positions_mm[t.x], m.positions_mm[t.z] - m.positions_mm[t.x]);
        for (int k = 0; k < 3; ++k) m.normals[t[k]] += n;
    }
    for (auto& n : m.normals) n = glm::length(n) > 0 ? glm::normalize(n) : glm::vec3(0, 0, 1);
    return m;
}

std::vector<glm::dvec2> stone_footprint(const SetStone& stone, const Material& material, double plane_mm) {
    const Mesh body = stone_body(stone, material, 5);
    std::vector<glm::dvec2> above;
    for (const auto& p : body.positions_mm)
        if (static_cast<double>(p.z) > plane_mm - 2) above.emplace_back(glm::dvec2(p));
    return simplified(convex_hull(std::move(above)), 0.15);
}

Mesh form_stone(const SetStone& stone, const Material& material) {
    const double largest = std::max({stone.stone.size_mm.x, stone.stone.size_mm.y, stone.stone.size_mm.z});
    return stone_body(stone, material, largest > 55 ? 6 : 5);
}

}  // namespace rakelight
