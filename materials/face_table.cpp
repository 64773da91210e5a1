#include "materials/face_table.h"

#include <boost/math/quadrature/gauss.hpp>
#include <stdexcept>
#include <string>

#include "materials/fresnel.h"

namespace rakelight {
namespace {

constexpr int kTurns = 32;    // directions round half the circle; the other half mirrors it
constexpr int kHeights = 64;  // along the cap

struct Turn {
    double cosine, sine;
};
using Turns = std::array<std::array<Turn, kTurns>, kHeights>;

// Each height's ring is turned by the golden ratio against the one before, as in a rank-one lattice.
Turns make_turns() {
    Turns r;
    for (std::size_t k = 0; k < kHeights; ++k) {
        const double golden = 0.6180339887498949 * static_cast<double>(k),
                     shift = golden - std::floor(golden);
        for (std::size_t t = 0; t < kTurns; ++t) {
            const double phi = 3.14159265358979323846 * (static_cast<double>(t) + shift) / kTurns;
            r[k][t] = {std::cos(phi), std::sin(phi)};
        }
    }
    return r;
}

// The sum over visible normals of ggx.h in double precision. The weight of a visible normal is F G2 /
// G1(out). The square in the height crowds points at the bottom of the cap, where the steepest facets are.
double rough_albedo(double z_out, double index, double alpha, const Turns& turns) {
    z_out = std::max(z_out, 1e-6);
    const double x_out = std::sqrt(1 - z_out * z_out), a2 = alpha * alpha;
    const double stretch = std::hypot(alpha * x_out, z_out);
    const double ox = alpha * x_out / stretch, oz = z_out / stretch;
    const auto lambda = [&](double z) { return 0.5 * (std::sqrt(1 + a2 * (1 / (z * z) - 1)) - 1); };
    const double shadow_out = 1 + lambda(z_out);
    double total = 0;
    for (std::size_t k = 0; k < kHeights; ++k) {
        const double left = 1 - (static_cast<double>(k) + 0.5) / kHeights;
        const double z = left * left * (1 + oz) - oz, radius = std::sqrt(std::max(0.0, 1 - z * z));
        for (const Turn& turn : turns[k]) {
            double hx = alpha * (radius * turn.cosine + ox), hy = alpha * radius * turn.sine, hz = z + oz;
            const double length = std::sqrt(hx * hx + hy * hy + hz * hz);
            hx /= length, hz /= length;
            const double toward = x_out * hx + z_out * hz;
            const double z_in = 2 * toward * hz - z_out;
            if (z_in > 0 && toward > 0)
                total += 2 * left * dielectric_reflectance(toward, index) * shadow_out /
                         (shadow_out + lambda(z_in));
        }
    }
    return total / (kTurns * kHeights);
}

// Cosine-weighted mean of the interpolated table: each interval is a line in x = sqrt(cosine), the weight 4
// x^3.
double mean_of_table(const FaceTable& table) {
    double total = 0;
    for (int i = 0; i < FaceTable::kIntervals; ++i) {
        const double a = table.nodes[static_cast<std::size_t>(i)],
                     b = table.nodes[static_cast<std::size_t>(i) + 1];
        total += boost::math::quadrature::gauss<double, 7>::integrate(
            [&](double x) { return 4 * x * x * x * (a + (x * FaceTable::kIntervals - i) * (b - a)); },
            static_cast<double>(i) / FaceTable::kIntervals,
            static_cast<double>(i + 1) / FaceTable::kIntervals);
    }
    return total;
}

}  // namespace

FaceTable make_face_table(float index, float alpha) {
    if (!(index > 1 && index <= 4)) throw std::invalid_argument("index of a face " + std::to_string(index));
    if (!(alpha >= 0 && alpha <= 1))
        throw std::invalid_argument("roughness of a face " + std::to_string(alpha));
    FaceTable table;
    table.index = index;
    table.alpha = alpha < kMirrorAlpha ? 0 : alpha;
    const Turns turns = make_turns();
    for (int i = 0; i <= FaceTable::kIntervals; ++i) {
        const double x = static_cast<double>(i) / FaceTable::kIntervals, z = x * x;
        const double albedo = table.alpha > 0 ? rough_albedo(z, index, table.alpha, turns)
                                              : dielectric_reflectance(z, static_cast<double>(index));
        table.nodes[static_cast<std::size_t>(i)] = static_cast<float>(albedo);
    }
    table.mean_albedo = static_cast<float>(mean_of_table(table));
    return table;
}

const FaceTable& FaceTables::get(float index, float alpha) {
    const auto key = std::pair(index, alpha);
    if (const auto found = tables_.find(key); found != tables_.end()) return found->second;
    return tables_.emplace(key, make_face_table(index, alpha)).first->second;
}

}  // namespace rakelight
