// The value of gradient noise at eight points side by side (noise.h has the sources).
#pragma once

#include <array>
#include <cstdint>

#include "materials/maths/lanes.h"

namespace rakelight {

/// `noise_value` of eight points, the same to the bit.
inline Floats noise_values(const Vec3s& p, const Words& seed) {
    const Vec3s low{floor(p.x), floor(p.y), floor(p.z)}, f = p - low;
    const auto whole = [](const Floats& x) { return Words(__builtin_convertvector(x, Ints)); };
    const Words x = whole(low.x), y = whole(low.y), z = whole(low.z);
    const auto fading = [](const Floats& t) { return t * t * t * (t * (t * 6.f - 15.f) + 10.f); };
    const Vec3s fade{fading(f.x), fading(f.y), fading(f.z)};
    std::array<Floats, 8> part;
    for (std::uint32_t corner = 0; corner < part.size(); ++corner) {
        const std::uint32_t cx = corner & 1, cy = corner >> 1 & 1, cz = corner >> 2;
        Words h = (x + cx) * 0x9e3779b1u + (y + cy) * 0x85ebca77u + (z + cz) * 0xc2b2ae3du +
                  seed * 0x27d4eb2fu + 0x165667b1u;
        h = (h ^ h >> 16) * 0x7feb352du;
        h = (h ^ h >> 15) * 0x846ca68bu;
        h ^= h >> 16;
        const Words edge = ((h >> 16) * 12 + ((h & 0xffffu) * 12 >> 16)) >> 16;
        const Floats dx = f.x - static_cast<float>(cx), dy = f.y - static_cast<float>(cy),
                     dz = f.z - static_cast<float>(cz);
        const Floats first = edge < 8 ? dx : dy, second = edge < 4 ? dy : dz;
        const Floats d = ((edge & 1) != 0 ? -first : first) + ((edge & 2) != 0 ? -second : second);
        const Floats wx = cx ? fade.x : 1 - fade.x, wy = cy ? fade.y : 1 - fade.y,
                     wz = cz ? fade.z : 1 - fade.z;
        part[corner] = wx * wy * wz * d;
    }
    constexpr float kScale = 0.8164965f;
    return kScale *
           (((part[0] + part[4]) + (part[2] + part[6])) + ((part[1] + part[5]) + (part[3] + part[7])));
}

}  // namespace rakelight
