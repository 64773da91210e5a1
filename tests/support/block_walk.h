// A block of glass set in its bed by brute force: light that falls evenly on its face walks at random through
// a real box of any two sides, and leaves the face where it leaves it. Nothing here comes from the program
// but Fresnel's equations. Isotropic scattering with coefficient 4/3 S (Mudgett and Richards 1971, Appl. Opt.
// 10, 1485), a smooth face, a matte bed and filling; above the filling a side mirrors.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "materials/optics/fresnel.h"

namespace rakelight {

struct WalkedBlock {
    double length_mm = 10, width_mm = 10, thickness_mm = 4;
    double bonded_mm = 3;
    double index = 1.52;
    double absorption_per_mm = 0;
    double scattering_per_mm = 0;  ///< Kubelka-Munk S
    double bed = 0.5, filling = 0.2;
};

/// What leaves the face, of light that enters it.
struct LeavingLight {
    double mean = 0;
    std::vector<double> at;  ///< by distance from the edge, in rings that are equally deep
};

inline LeavingLight walk_block(const WalkedBlock& b, int rings, int photons, unsigned seed) {
    std::mt19937_64 engine(seed);
    const auto uniform = [&] { return (static_cast<double>(engine() >> 11) + 0.5) * 0x1p-53; };
    const double pi = std::numbers::pi, scatter = 4. / 3 * b.scattering_per_mm;
    const double half = std::min(b.length_mm, b.width_mm) / 2;
    const std::array<double, 3> size{b.length_mm, b.width_mm, b.thickness_mm};
    LeavingLight out;
    out.at.resize(static_cast<std::size_t>(rings));
    double entered = 0;
    for (int i = 0; i < photons; ++i) {
        std::array<double, 3> p{uniform() * size[0], uniform() * size[1], 0}, v{};
        const double sine2 = uniform(), turn = 2 * pi * uniform(), sine = std::sqrt(sine2) / b.index;
        v = {sine * std::cos(turn), sine * std::sin(turn), std::sqrt(1 - sine * sine)};
        double weight = 1 - dielectric_reflectance(std::sqrt(1 - sine2), b.index);
        entered += weight;
        const auto matte = [&](std::size_t axis, double sign) {
            const double r = std::sqrt(uniform()), a = 2 * pi * uniform();
            v[axis] = sign * std::sqrt(1 - r * r);
            v[(axis + 1) % 3] = r * std::cos(a);
            v[(axis + 2) % 3] = r * std::sin(a);
        };
        while (weight > 0) {
            double free = scatter > 0 ? -std::log(uniform()) / scatter : INFINITY;
            std::size_t wall = 3;
            for (std::size_t k = 0; k < 3; ++k) {
                const double way = v[k] > 0 ? (size[k] - p[k]) / v[k] : v[k] < 0 ? -p[k] / v[k] : INFINITY;
                if (way < free) free = std::max(way, 0.0), wall = k;
            }
            weight *= std::exp(-b.absorption_per_mm * free);
            for (std::size_t k = 0; k < 3; ++k) p[k] = std::clamp(p[k] + free * v[k], 0.0, size[k]);
            if (wall == 3) {
                const double z = 2 * uniform() - 1, a = 2 * pi * uniform(), r = std::sqrt(1 - z * z);
                v = {r * std::cos(a), r * std::sin(a), z};
            } else if (wall < 2) {
                if (p[2] < b.thickness_mm - b.bonded_mm) {
                    v[wall] = -v[wall];
                } else {
                    weight *= b.filling;
                    matte(wall, v[wall] > 0 ? -1 : 1);
                }
            } else if (v[2] > 0) {
                weight *= b.bed;
                matte(2, -1);
            } else {
                const double back = dielectric_reflectance(-v[2], 1 / b.index);
                if (uniform() >= back) {
                    const double from_edge = std::min({p[0], b.length_mm - p[0], p[1], b.width_mm - p[1]});
                    out.mean += weight;
                    out.at[static_cast<std::size_t>(std::min(from_edge / half * rings, rings - 1.0))] +=
                        weight;
                    break;
                }
                v[2] = -v[2];
            }
            if (weight < 0.02) weight = uniform() < 0.25 ? weight * 4 : 0;
        }
    }
    const double area = b.length_mm * b.width_mm;
    for (int r = 0; r < rings; ++r) {
        const auto inner = [&](double d) { return (b.length_mm - 2 * d) * (b.width_mm - 2 * d); };
        const double share = (inner(half * r / rings) - inner(half * (r + 1) / rings)) / area;
        out.at[static_cast<std::size_t>(r)] /= entered * share;
    }
    out.mean /= entered;
    return out;
}

}  // namespace rakelight
