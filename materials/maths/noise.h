// Unevenness that is the same wherever it is asked for again: gradient noise with its slope, its octaves, and
// cells. For ripple, riven faces, grain, pores and patches. A function of the point and a seed only. Sources:
// Perlin 2002, ACM Trans. Graph. 21(3) (gradient noise, quintic fade); Worley 1996, SIGGRAPH (cells); mixing
// constants of C. Wellons' hash search (2018, public domain).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <glm/glm.hpp>

namespace rakelight {

/// A well-mixed number for a lattice point.
inline std::uint32_t lattice_hash(std::int32_t x, std::int32_t y, std::int32_t z, std::uint32_t seed) {
    std::uint32_t h = static_cast<std::uint32_t>(x) * 0x9e3779b1u +
                      static_cast<std::uint32_t>(y) * 0x85ebca77u +
                      static_cast<std::uint32_t>(z) * 0xc2b2ae3du + seed * 0x27d4eb2fu + 0x165667b1u;
    h = (h ^ (h >> 16)) * 0x7feb352du;
    h = (h ^ (h >> 15)) * 0x846ca68bu;
    return h ^ (h >> 16);
}

/// A value and its derivative by the point.
struct NoiseSample {
    float value = 0;
    glm::vec3 gradient{0};
};

/// Standard deviation of gradient_noise over space, to set a wanted one; its mean is 0.
/// sqrt(32/3 a b^2) with a, b the integrals over [0, 1] of x^2 f^2 and f^2, f the falling fade.
inline constexpr float kNoiseDeviation = 0.2205f;

/// Smooth noise of wavelength about 2 units, in [-1, 1]; 0 at lattice points. |coordinates| below 2^30.
inline NoiseSample gradient_noise(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 low = glm::floor(p), f = p - low;
    const auto x = static_cast<std::int32_t>(low.x), y = static_cast<std::int32_t>(low.y),
               z = static_cast<std::int32_t>(low.z);
    const glm::vec3 fade = f * f * f * (f * (f * 6.f - 15.f) + 10.f);
    const glm::vec3 rise = 30.f * f * f * (f * (f - 2.f) + 1.f);
    static constexpr std::array<std::array<float, 3>, 12> kEdges{{{1, 1, 0},
                                                                  {-1, 1, 0},
                                                                  {1, -1, 0},
                                                                  {-1, -1, 0},
                                                                  {1, 0, 1},
                                                                  {-1, 0, 1},
                                                                  {1, 0, -1},
                                                                  {-1, 0, -1},
                                                                  {0, 1, 1},
                                                                  {0, -1, 1},
                                                                  {0, 1, -1},
                                                                  {0, -1, -1}}};
    NoiseSample r;
    for (int corner = 0; corner < 8; ++corner) {
        const int cx = corner & 1, cy = (corner >> 1) & 1, cz = corner >> 2;
        const std::uint32_t h = lattice_hash(x + cx, y + cy, z + cz, seed);
        const auto& edge = kEdges[static_cast<std::size_t>((static_cast<std::uint64_t>(h) * 12) >> 32)];
        const glm::vec3 g(edge[0], edge[1], edge[2]);
        const float d = glm::dot(g, f - glm::vec3(cx, cy, cz));
        const float wx = cx ? fade.x : 1 - fade.x, wy = cy ? fade.y : 1 - fade.y,
                    wz = cz ? fade.z : 1 - fade.z;
        r.value += wx * wy * wz * d;
        r.gradient += wx * wy * wz * g + d * glm::vec3((cx ? rise.x : -rise.x) * wy * wz,
                                                       (cy ? rise.y : -rise.y) * wx * wz,
                                                       (cz ? rise.z : -rise.z) * wx * wy);
    }
    // |sum w d| <= sqrt(2 sum w |offset|^2) <= sqrt(2 * 3/4), so this bounds it by 1.
    constexpr float kScale = 0.8164965f;
    r.value *= kScale;
    r.gradient *= kScale;
    return r;
}

/// The value of `gradient_noise` alone, to rounding: the eight corners side by side, for what is asked at
/// every hit.
inline float noise_value(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 low = glm::floor(p), f = p - low;
    const auto x = static_cast<std::int32_t>(low.x), y = static_cast<std::int32_t>(low.y),
               z = static_cast<std::int32_t>(low.z);
    const glm::vec3 fade = f * f * f * (f * (f * 6.f - 15.f) + 10.f);
    constexpr int kCorners = 8;
    std::array<float, kCorners> part;
    for (int corner = 0; corner < kCorners; ++corner) {
        const int cx = corner & 1, cy = corner >> 1 & 1, cz = corner >> 2;
        const std::uint32_t h = lattice_hash(x + cx, y + cy, z + cz, seed);
        // The twelve edges in the order of gradient_noise, by arithmetic instead of a table: four signs for
        // each of the three pairs of axes. h * 12 / 2^32 without 64-bit products; exact but for the last of
        // its 32 bits.
        const std::uint32_t edge = ((h >> 16) * 12 + ((h & 0xffffu) * 12 >> 16)) >> 16;
        const float dx = f.x - static_cast<float>(cx), dy = f.y - static_cast<float>(cy),
                    dz = f.z - static_cast<float>(cz);
        const float first = edge < 8 ? dx : dy, second = edge < 4 ? dy : dz;
        const float d = (edge & 1 ? -first : first) + (edge & 2 ? -second : second);
        const float wx = cx ? fade.x : 1 - fade.x, wy = cy ? fade.y : 1 - fade.y,
                    wz = cz ? fade.z : 1 - fade.z;
        part[static_cast<std::size_t>(corner)] = wx * wy * wz * d;
    }
    constexpr float kScale = 0.8164965f;
    return kScale *
           (((part[0] + part[4]) + (part[2] + part[6])) + ((part[1] + part[5]) + (part[3] + part[7])));
}

/// Octaves of gradient noise, each of half the wavelength and `gain` times the height of the one before, in
/// [-1, 1].
inline NoiseSample layered_noise(const glm::vec3& p, int octaves, std::uint32_t seed, float gain = 0.5f) {
    NoiseSample r;
    float height = 1, scale = 1, total = 0;
    for (int i = 0; i < octaves; ++i) {
        // The shift keeps the zeros of the octaves' lattices apart.
        const NoiseSample n = gradient_noise(p * scale + 0.37f * static_cast<float>(i),
                                             seed + 101u * static_cast<std::uint32_t>(i));
        r.value += height * n.value;
        r.gradient += height * scale * n.gradient;
        total += height;
        height *= gain;
        scale *= 2;
    }
    if (total > 0) {
        r.value /= total;
        r.gradient /= total;
    }
    return r;
}

/// The nearest of the points strewn one to each unit cube.
struct CellSample {
    float nearest = 0;        ///< distance to the nearest point
    float second = 0;         ///< distance to the next one; second - nearest is 0 on the walls between cells
    glm::vec3 to_nearest{0};  ///< from the asked point to the nearest
    std::uint32_t id = 0;     ///< of the nearest: the same all over its cell
};

/// Exact: looks as far as the second distance demands. |coordinates| below 2^20.
inline CellSample cell_noise(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 low = glm::floor(p), f = p - low;
    const auto x = static_cast<std::int32_t>(low.x), y = static_cast<std::int32_t>(low.y),
               z = static_cast<std::int32_t>(low.z);
    float nearest2 = 1e30f, second2 = 1e30f;
    CellSample r;
    const auto visit = [&](int i, int j, int k) {
        const std::uint32_t h = lattice_hash(x + i, y + j, z + k, seed);
        const glm::vec3 spot(h & 1023u, (h >> 10) & 1023u, (h >> 20) & 1023u);
        const glm::vec3 to = glm::vec3(i, j, k) + (spot + 0.5f) / 1024.f - f;
        const float d2 = glm::dot(to, to);
        if (d2 < nearest2) {
            second2 = nearest2;
            nearest2 = d2;
            r.to_nearest = to;
            r.id = h;
        } else if (d2 < second2) {
            second2 = d2;
        }
    };
    const float wall =
        std::min(std::min(std::min(f.x, 1 - f.x), std::min(f.y, 1 - f.y)), std::min(f.z, 1 - f.z));
    for (int reach = 1; reach <= 3; ++reach) {
        for (int i = -reach; i <= reach; ++i)
            for (int j = -reach; j <= reach; ++j)
                for (int k = -reach; k <= reach; ++k)
                    if (reach == 1 || std::abs(i) == reach || std::abs(j) == reach || std::abs(k) == reach)
                        visit(i, j, k);
        const float sure = static_cast<float>(reach) + wall;
        if (second2 <= sure * sure) break;
    }
    r.nearest = std::sqrt(nearest2);
    r.second = std::sqrt(second2);
    return r;
}

}  // namespace rakelight
