#include "materials/optics/layer.h"

#include <boost/math/quadrature/gauss.hpp>

#include "materials/optics/fresnel.h"
#include "materials/optics/layer_slab.h"

namespace rakelight {
namespace layer_matrix {
namespace {

constexpr std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

// A very thin sheet of optical depth `depth` and single-scatter albedo `omega`, isotropic. The sum and the
// difference of up and down light pass it separately (Wiscombe's diamond start), which conserves energy
// exactly.
Sheet thin_sheet(const LayerFrame& f, double depth, double omega) {
    Vector stay, turn;
    double kept = 1 - omega;
    for (std::size_t i = 0; i < N; ++i) {
        stay[i] = 1 / (1 + depth / (2 * f.cosines[i]));
        turn[i] = depth / (2 * f.cosines[i]) * stay[i];
        kept += omega * f.weights[i] * stay[i];
    }
    Sheet s;
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t j = 0; j < N; ++j) {
            const double scattered = omega * turn[i] * f.weights[j] * stay[j] / kept;
            s.reflect.row[i][j] = s.transmit.row[i][j] = scattered;
        }
        s.transmit.row[i][i] += stay[i] - turn[i];
    }
    return s;
}

Sheet doubled(const Sheet& s) {
    const Matrix between = solve(identity_less(s.reflect * s.reflect), s.transmit);
    return {s.reflect + s.transmit * (s.reflect * between), s.transmit * between};
}

// Several layers as one, no longer the same from both sides.
struct Slab {
    Matrix above, below;  // reflected, of light from the interface's side and from the backing's
    Matrix down, up;
};

// A slab with a sheet added under it (van de Hulst's adding).
Slab added(const Slab& a, const Sheet& b) {
    const Matrix down = solve(identity_less(a.below * b.reflect), a.down);
    const Matrix up = solve(identity_less(b.reflect * a.below), b.transmit);
    return {a.above + a.up * (b.reflect * down), b.reflect + b.transmit * (a.below * up), b.transmit * down,
            a.up * up};
}

}  // namespace

Vector fluxes(const LayerFrame& f) {
    Vector v;
    double total = 0;
    for (std::size_t i = 0; i < N; ++i) total += v[i] = 2 * f.weights[i] * f.cosines[i];
    for (double& x : v) x /= total;
    return v;
}

Depth depth_of(const LayerBand& band) {
    const double scattering_per_mm = 4. / 3 * band.scattering_per_mm;
    const double total_per_mm = band.absorption_per_mm + scattering_per_mm;
    if (!(total_per_mm > 0)) return {};
    return {std::min(total_per_mm * band.thickness_mm, kEndless), scattering_per_mm / total_per_mm};
}

Sheet whole_sheet(const LayerFrame& f, Depth d) {
    int doublings = 0;
    for (; d.depth > kThinnest; d.depth /= 2) ++doublings;
    Sheet sheet = thin_sheet(f, d.depth, d.omega);
    for (; doublings > 0; --doublings) sheet = doubled(sheet);
    return sheet;
}

}  // namespace layer_matrix

namespace {

using namespace layer_matrix;

// The share of light entering along each direction that leaves through the interface, for a slab on a matte
// backing.
Vector leaving_share(const LayerFrame& f, const Slab& s, double backing) {
    const Vector flux = fluxes(f);
    Vector lit{},
        seen{};  // flux through to the backing from each direction; radiance through from a matte backing
    double returned = 0;
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t j = 0; j < N; ++j) {
            lit[j] += flux[i] * s.down.row[i][j];
            seen[i] += s.up.row[i][j];
            returned += flux[i] * s.below.row[i][j];
        }
    }
    const double strength = backing / std::max(1 - backing * returned, 1e-12);
    Matrix base;
    for (std::size_t i = 0; i < N; ++i)
        for (std::size_t j = 0; j < N; ++j) base.row[i][j] = s.above.row[i][j] + strength * seen[i] * lit[j];
    // All returns under the interface, by the adjoint: one solution serves every direction of entry.
    Matrix system, source;
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t j = 0; j < N; ++j)
            system.row[j][i] = (i == j ? 1.0 : 0.0) - base.row[i][j] * f.internal[j];
        source.row[i][0] = flux[i] * (1 - f.internal[i]);
    }
    const Matrix worth = solve(system, source);
    Vector share{};
    for (std::size_t j = 0; j < N; ++j) {
        for (std::size_t i = 0; i < N; ++i) share[j] += worth.row[i][0] * base.row[i][j];
        share[j] /= flux[j];
    }
    return share;
}

double node_cosine(const LayerFrame& f, int node) {
    return f.cosine.first + (1 - f.cosine.first) * node / (kLayerNodes - 1.0);
}

// From the directions that reach the outside to the nodes. The logarithm is nearly a polynomial in the
// cosine. Without a critical angle the directions reach down to grazing, where only a line between neighbours
// is safe.
std::array<double, kLayerNodes> at_nodes(const LayerFrame& f, const Vector& share) {
    std::array<double, kLayerNodes> r{};
    Vector logs;
    for (std::size_t i = 0; i < N; ++i) logs[i] = std::log(std::max(share[i], 1e-300));
    for (int k = 0; k < kLayerNodes; ++k) {
        const double x = node_cosine(f, k);
        double value = 0;
        if (f.index > 1) {
            for (std::size_t i = kHalf; i < N; ++i) {
                double basis = 1;
                for (std::size_t j = kHalf; j < N; ++j)
                    if (j != i) basis *= (x - f.cosines[j]) / (f.cosines[i] - f.cosines[j]);
                value += basis * logs[i];
            }
        } else {
            std::size_t i = 1;
            while (i + 1 < N && f.cosines[i] < x) ++i;
            const double t = (x - f.cosines[i - 1]) / (f.cosines[i] - f.cosines[i - 1]);
            value = logs[i - 1] + t * (logs[i] - logs[i - 1]);
        }
        r[at(k)] = std::clamp(std::exp(value), 0.0, 1.0);
    }
    return r;
}

// Nothing scatters: Beer-Lambert down, the backing, Beer-Lambert up, with all returns under the interface.
std::array<double, kLayerNodes> clear_albedo(const LayerFrame& f, double depth, double backing) {
    const Vector flux = fluxes(f);
    double leaves = 0, returns = 0;
    for (std::size_t i = 0; i < N; ++i) {
        leaves += flux[i] * (1 - f.internal[i]) * std::exp(-depth / f.cosines[i]);
        returns += flux[i] * f.internal[i] * std::exp(-2 * depth / f.cosines[i]);
    }
    std::array<double, kLayerNodes> r{};
    for (int k = 0; k < kLayerNodes; ++k) {
        const double down = depth > 0 ? std::exp(-depth / node_cosine(f, k)) : 1;
        r[at(k)] = down * backing * leaves / (1 - backing * returns);
    }
    return r;
}

// Gauss points of [0, 1].
template <unsigned Count, class Visit>
void gauss_points(Visit&& visit) {
    using Rule = boost::math::quadrature::gauss<double, Count>;
    const auto& x = Rule::abscissa();
    const auto& w = Rule::weights();
    for (std::size_t i = x.size(); i-- > 0;) visit(0.5 - 0.5 * x[i], 0.5 * w[i]);
    for (std::size_t i = 0; i < x.size(); ++i)
        if (x[i] > 0) visit(0.5 + 0.5 * x[i], 0.5 * w[i]);
}

}  // namespace

LayerCosine make_layer_cosine(float index) {
    LayerCosine c;
    c.inverse_index2 = 1 / (index * index);
    c.first = std::sqrt(1 - c.inverse_index2);
    c.per_cosine = (kLayerNodes - 1) / (1 - c.first);
    return c;
}

LayerFrame make_layer_frame(const InterfaceTable* interface) {
    LayerFrame f;
    f.index = interface ? interface->index : 1;
    f.cosine = make_layer_cosine(static_cast<float>(f.index));
    std::size_t i = 0;
    if (interface) {
        const double n2 = f.index * f.index, critical = std::sqrt(1 - 1 / n2);
        gauss_points<kHalf>([&](double x, double w) {
            f.cosines[i] = critical * x;
            f.weights[i++] = critical * w;
        });
        // Even in the outer cosine, in which the interface's transmittance is smooth down to grazing.
        double total = 0;
        gauss_points<kHalf>([&](double x, double w) {
            f.cosines[i] = std::sqrt(1 - (1 - x * x) / n2);
            total += f.weights[i] = w * x / (n2 * f.cosines[i]);
            ++i;
        });
        for (i = kHalf; i < N; ++i) f.weights[i] *= (1 - critical) / total;
        const Vector flux = fluxes(f);
        double smooth = 0;
        for (i = 0; i < N; ++i)
            smooth += flux[i] * (f.internal[i] = dielectric_reflectance(f.cosines[i], 1 / f.index));
        const double wanted = 1 - (1 - interface->mean_albedo) / n2;
        for (double& r : f.internal)
            r = wanted <= smooth ? r * wanted / smooth : 1 - (1 - r) * (1 - wanted) / (1 - smooth);
    } else {
        gauss_points<N>([&](double x, double w) {
            f.cosines[i] = x;
            f.weights[i++] = w;
        });
    }
    double total = 0;
    gauss_points<60>([&](double z, double w) {
        std::array<SampledSpectrum, kLayerNodes> hat;
        for (int k = 0; k < kLayerNodes; ++k) hat[at(k)][k] = 1;
        const SampledSpectrum part = f.cosine.read(hat, static_cast<float>(z));
        const double entering = w * z * (interface ? 1 - interface->albedo(static_cast<float>(z)) : 1);
        for (int k = 0; k < kLayerNodes; ++k) f.node_weight[at(k)] += entering * part[k];
        total += entering;
    });
    for (double& w : f.node_weight) w /= total;
    return f;
}

std::array<double, kLayerNodes> layer_albedo(const LayerFrame& frame, std::span<const LayerBand> layers) {
    double clear_depth = 0, scattering = 0;
    for (const LayerBand& band : layers) {
        const Depth d = depth_of(band);
        clear_depth += d.depth;
        scattering += d.omega;
    }
    const double backing = layers.back().backing;
    if (!(scattering > 0)) return clear_albedo(frame, std::min(clear_depth, kEndless), backing);
    const Sheet first = whole_sheet(frame, depth_of(layers.front()));
    Slab slab{first.reflect, first.reflect, first.transmit, first.transmit};
    for (const LayerBand& band : layers.subspan(1)) slab = added(slab, whole_sheet(frame, depth_of(band)));
    return at_nodes(frame, leaving_share(frame, slab, backing));
}

std::array<double, kLayerNodes> layer_albedo(const LayerFrame& frame, const LayerBand& band) {
    return layer_albedo(frame, std::span(&band, 1));
}

LayerFactor layer_factor(const LayerFrame& frame, const std::array<double, kLayerNodes>& albedo) {
    double mean = 0;
    for (int k = 0; k < kLayerNodes; ++k) mean += frame.node_weight[at(k)] * albedo[at(k)];
    LayerFactor r;
    r.mean = std::sqrt(mean);
    if (r.mean > 0)
        for (int k = 0; k < kLayerNodes; ++k) r.g[at(k)] = albedo[at(k)] / r.mean;
    return r;
}

}  // namespace rakelight
