// The judge of the layer solver is light itself: a random walk through the same slab.
#include "materials/optics/layer.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <cstdio>
#include <random>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

struct Walk {
    double albedo = 0;
    double error = 0;                 ///< standard error of albedo
    std::array<double, 3> leaving{};  ///< albedo by thirds of sin^2 of the leaving angle
};

// Isotropic scattering with coefficient 4/3 S (Mudgett and Richards 1971: S = 3/4 of the reduced
// coefficient), a smooth face, a matte backing. Light splits at the face; absorption is in the weight.
Walk random_walk(double index, const LayerBand& band, double z_outside, int photons) {
    std::mt19937 engine(7);
    const auto uniform = [&] { return (engine() + 0.5) * (1.0 / 4294967296.0); };
    const double scatter = 4. / 3 * band.scattering_per_mm;
    const double z_start = std::sqrt(1 - (1 - z_outside * z_outside) / (index * index));
    Walk r;
    double sum = 0, squares = 0;
    for (int p = 0; p < photons; ++p) {
        double depth = 0, weight = 1, cosine = z_start, escaped = 0;  // cosine > 0: away from the face
        while (weight > 0) {
            const double free = scatter > 0 ? -std::log(uniform()) / scatter : INFINITY;
            const double edge = cosine > 0 ? (band.thickness_mm - depth) / cosine : -depth / cosine;
            const double length = std::min(free, edge);
            weight *= std::exp(-band.absorption_per_mm * length);
            if (free < edge) {
                depth += cosine * length;
                cosine = 2 * uniform() - 1;
            } else if (cosine > 0) {
                depth = band.thickness_mm;
                weight *= band.backing;
                cosine = -std::sqrt(uniform());
            } else {
                depth = 0;
                const double inside = dielectric_reflectance(-cosine, 1 / index);
                const double out = weight * (1 - inside);
                escaped += out;
                const double sin2 = (1 - cosine * cosine) * index * index;
                if (out > 0) r.leaving[static_cast<std::size_t>(std::min(2.0, 3 * sin2))] += out;
                weight -= out;
                cosine = -cosine;
            }
            if (weight < 0.01) weight = uniform() < 0.1 ? weight * 10 : 0;
        }
        sum += escaped;
        squares += escaped * escaped;
    }
    r.albedo = sum / photons;
    r.error = std::sqrt(std::max(0.0, squares / photons - r.albedo * r.albedo) / photons);
    for (double& x : r.leaving) x /= photons;
    return r;
}

// Albedo of the layer from one outer direction, read between the nodes as a picture reads it.
double albedo_between(const LayerFrame& frame, const std::array<double, kLayerNodes>& nodes, double z) {
    std::array<SampledSpectrum, kLayerNodes> g;
    for (int k = 0; k < kLayerNodes; ++k)
        g[static_cast<std::size_t>(k)] =
            SampledSpectrum(static_cast<float>(nodes[static_cast<std::size_t>(k)]));
    return frame.cosine.read(g, static_cast<float>(z))[0];
}

// Share of entering light that g says leaves in each third of sin^2 of the leaving angle.
std::array<double, 3> leaving_by_product(const LayerFrame& frame, const InterfaceTable& face,
                                         const LayerFactor& factor, double z_in) {
    std::array<double, 3> r{};
    double total = 0;
    constexpr int kCount = 3000;
    for (int i = 0; i < kCount; ++i) {
        const double sin2 = (i + 0.5) / kCount, z = std::sqrt(1 - sin2);
        const double entering = 1 - face.albedo(static_cast<float>(z));
        total += entering;
        r[static_cast<std::size_t>(3 * sin2)] += entering * albedo_between(frame, factor.g, z);
    }
    for (double& x : r) x *= albedo_between(frame, factor.g, z_in) / total;
    return r;
}

TEST(Layer, AgreesWithARandomWalk) {
    double worst = 0, worst_relative = 0, worst_plain = 0, worst_shape = 0;
    for (const float index : {1.5f, 1.7f}) {
        const InterfaceTable face = make_interface_table(index, 0);
        const LayerFrame frame = make_layer_frame(&face);
        const double k2 = diffuse_reflectance_inside(index);
        for (const double absorption : {0.0, 0.03, 0.3, 1.5})
            for (const double scattering : {0.0, 0.02, 0.3, 3.0})
                for (const double thickness : {0.5, 3.0})
                    for (const double backing : {0.05, 0.8}) {
                        const LayerBand band{absorption, scattering, thickness, backing};
                        const auto nodes = layer_albedo(frame, band);
                        const LayerFactor factor = layer_factor(frame, nodes);
                        const double plain = through_interface(
                            over_backing(diffuse_layer(2 * absorption, scattering, thickness), backing), 0,
                            k2);
                        for (const double z : {1.0, 0.5, 0.1}) {
                            const Walk walk = random_walk(index, band, z, 20000);
                            const double ours = albedo_between(frame, nodes, z),
                                         off = std::fabs(ours - walk.albedo);
                            // 2 % of the albedo, or what the walk itself does not know.
                            EXPECT_LT(off, 0.02 * walk.albedo + 3 * walk.error)
                                << "n " << index << " K " << absorption << " S " << scattering << " d "
                                << thickness << " Rg " << backing << " cos " << z << " walk " << walk.albedo
                                << " ours " << ours;
                            worst = std::max(worst, off);
                            worst_plain = std::max(worst_plain, std::fabs(plain - walk.albedo));
                            if (walk.albedo > 0.01)
                                worst_relative =
                                    std::max(worst_relative, (off - 3 * walk.error) / walk.albedo);
                            const auto product = leaving_by_product(frame, face, factor, z);
                            for (std::size_t third = 0; third < 3; ++third)
                                worst_shape =
                                    std::max(worst_shape, std::fabs(product[third] - walk.leaving[third]));
                        }
                    }
    }
    std::printf("against the walk, albedo: worst %.4f (beyond 3 sigma, relative %.4f)\n", worst,
                worst_relative);
    std::printf("plain Kubelka-Munk under Saunderson: worst %.4f\n", worst_plain);
    std::printf("light leaving into a third of the hemisphere: worst %.4f\n", worst_shape);
    EXPECT_LT(worst, 0.01);
    EXPECT_LT(worst_shape, 0.04);  // the price of the product form
}

// Clear glass over a matte backing has a closed form: Beer-Lambert along the slant both ways, and a geometric
// series of returns under the face with M the integral of 2 z R_inside(z) exp(-2 K d / z).
TEST(Layer, ClearLayerIsBeerLambert) {
    const double n = 1.52;
    const InterfaceTable face = make_interface_table(1.52f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    const double critical = std::sqrt(1 - 1 / (n * n));
    for (const double depth : {0.0, 0.1, 0.7, 2.3, 7.0})
        for (const double backing : {0.001, 0.3, 0.9}) {
            using Rule = boost::math::quadrature::gauss_kronrod<double, 61>;
            const auto returned = [&](double z) {
                return 2 * z * dielectric_reflectance(z, 1 / n) * std::exp(-2 * depth / z);
            };
            const double m = Rule::integrate(returned, 0.0, critical, 15, 1e-10) +
                             Rule::integrate(returned, critical, 1.0, 15, 1e-10);
            const LayerFactor f = layer_factor(frame, layer_albedo(frame, {depth, 0, 1, backing}));
            const auto closed = [&](double z_in, double z_out) {  // A(in, out), refracted cosines
                return (1 - diffuse_reflectance_outside(n)) / (n * n) *
                       std::exp(-depth / z_in - depth / z_out) * backing / (1 - backing * m);
            };
            // 5e-3: g runs straight between its nodes, which tells at a depth of 7 (and a reflectance of
            // 1e-7).
            const double normal = f.g[kLayerNodes - 1], grazing = f.g[0];
            EXPECT_NEAR(normal * normal / closed(1, 1), 1, 5e-3) << depth << ' ' << backing;
            EXPECT_NEAR(normal * grazing / closed(1, critical), 1, 5e-3) << depth << ' ' << backing;
        }
}

// Light crosses a 6 mm glass over a dull backing twice: the fourth power of the transmittance of 3 mm.
TEST(Layer, DoublePass) {
    const InterfaceTable face = make_interface_table(1.52f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    const auto seen = [&](double k) {
        const double g = layer_factor(frame, layer_albedo(frame, {k, 0, 6, 1e-4})).g[kLayerNodes - 1];
        return g * g;
    };
    for (const double t : {.1, .3, .5, .7})
        EXPECT_NEAR(seen(-std::log(t) / 3) / seen(0), std::pow(t, 4), 2e-3 * std::pow(t, 4));
}

TEST(Layer, LosslessOverWhiteGivesAllBack) {
    for (const float alpha : {0.f, 0.1f, 1.f})
        for (const float index : {1.05f, 1.5f, 2.f}) {
            const InterfaceTable face = make_interface_table(index, alpha);
            for (const LayerFrame& frame : {make_layer_frame(&face), make_layer_frame(nullptr)})
                for (const double s : {0., 1e-6, 0.1, 10.})
                    for (const double d : {0., 1., 1000.})
                        for (const double share : layer_albedo(frame, {0, s, d, 1}))
                            EXPECT_NEAR(share, 1, 1e-6);
        }
}

TEST(Layer, OpaqueLimitIsSaunderson) {  // nothing of a thin clear layer but its face
    const InterfaceTable face = make_interface_table(1.5f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    for (const double r : {0.05, 0.4, 0.9})
        for (const double share : layer_albedo(frame, {0, 0, 1, r}))
            EXPECT_NEAR(share, through_interface(r, 0, diffuse_reflectance_inside(1.5)), 1e-4);
}

TEST(Layer, TendsToKubelkaMunkWithoutAFace) {
    // Mudgett and Richards 1971: the two-flux result is near that of transport once light is diffuse and
    // absorption is weak. Mean over entering directions, no face.
    const LayerFrame frame = make_layer_frame(nullptr);
    for (const double k : {0., 0.001, 0.01})
        for (const double s : {3., 10.}) {
            const auto nodes = layer_albedo(frame, {k, s, 2, 0.3});
            double mean = 0;
            for (std::size_t i = 0; i < nodes.size(); ++i) mean += frame.node_weight[i] * nodes[i];
            EXPECT_NEAR(mean, over_backing(diffuse_layer(2 * k, s, 2), 0.3), 0.02) << k << ' ' << s;
        }
}

TEST(Layer, IsSmoothAtItsLimits) {
    const InterfaceTable face = make_interface_table(1.5f, 0.05f);
    for (const LayerFrame& frame : {make_layer_frame(&face), make_layer_frame(nullptr)}) {
        const auto clear = layer_albedo(frame, {0.4, 0, 3, 0.6}),
                   nearly = layer_albedo(frame, {0.4, 1e-9, 3, 0.6});
        for (std::size_t i = 1; i < clear.size(); ++i) EXPECT_NEAR(clear[i], nearly[i], 2e-3) << i;
        const auto thick = layer_albedo(frame, {0.4, 1, 1e4, 0.6}),
                   endless = layer_albedo(frame, {0.4, 1, INFINITY, 0});
        for (std::size_t i = 0; i < thick.size(); ++i) EXPECT_NEAR(thick[i], endless[i], 1e-9);
        for (const double k : {0., 1e-9, 1., 1e5})
            for (const double s : {0., 1e-9, 1., 1e5})
                for (const double d : {0., 1e-9, 5., 1e5, static_cast<double>(INFINITY)})
                    for (const double backing : {0., 0.5, 1.}) {
                        const auto nodes = layer_albedo(frame, {k, s, d, backing});
                        const LayerFactor f = layer_factor(frame, nodes);
                        for (std::size_t i = 0; i < nodes.size(); ++i) {
                            EXPECT_TRUE(nodes[i] >= 0 && nodes[i] <= 1 + 1e-9) << k << ' ' << s << ' ' << d;
                            EXPECT_TRUE(std::isfinite(f.g[i]));
                        }
                    }
    }
}

}  // namespace
}  // namespace rakelight
