#include "materials/optics/kubelka_munk.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

double closed_form(double k, double s, double x, double backing) {  // Kubelka 1948, with coth as printed
    const double a = (s + k) / s, b = std::sqrt(a * a - 1), coth = 1 / std::tanh(b * s * x);
    return (1 - backing * (a - b * coth)) / (a - backing + b * coth);
}

TEST(Body, EndlessReflectance) {  // K/S = (1-R)^2 / 2R
    const double rows[][2] = {{.05, 9.025},    {.10, 4.05}, {.20, 1.6},
                              {.30, .8166667}, {.50, .25},  {.80, .025}};
    for (const auto& [r, q] : rows) {
        EXPECT_NEAR(k_over_s(r), q, 1e-6);
        EXPECT_NEAR(endless_reflectance(q), r, 1e-6);
    }
    EXPECT_NEAR(endless_reflectance(1), 2 - std::sqrt(3.0), 1e-15);
    EXPECT_EQ(endless_reflectance(0), 1);
    EXPECT_EQ(endless_reflectance(INFINITY), 0);
    EXPECT_EQ(k_over_s(1), 0);
    EXPECT_TRUE(std::isinf(k_over_s(0)));
}

TEST(Body, FiniteLayerTable) {
    struct Row {
        double k, s, x, backing, r, r0, t;
    };
    for (const Row& row :
         {Row{.5, 2, 1, 0, .481095, .481095, .169457}, Row{.5, 2, 1, .8, .518441, .481095, .169457},
          Row{.5, 2, 1, 1, .536433, .481095, .169457}, Row{.1, 5, .5, .2, .704344, .688178, .264019},
          Row{2, 1, .3, .9, .320724, .140897, .417697}}) {
        const DiffuseLayer layer = diffuse_layer(row.k, row.s, row.x);
        EXPECT_NEAR(layer.reflectance, row.r0, 1e-6);
        EXPECT_NEAR(layer.transmittance, row.t, 1e-6);
        EXPECT_NEAR(over_backing(layer, row.backing), row.r, 1e-6);
        EXPECT_NEAR(over_backing(layer, row.backing), closed_form(row.k, row.s, row.x, row.backing), 1e-12);
    }
}

TEST(Body, Limits) {
    EXPECT_NEAR(over_backing(diffuse_layer(0, 3, .5), .2), (.8 * 1.5 + .2) / (.8 * 1.5 + 1), 1e-9);
    EXPECT_NEAR(over_backing(diffuse_layer(1, 0, .5), .7), .7 * std::exp(-1.0), 1e-12);  // S = 0
    EXPECT_NEAR(over_backing(diffuse_layer(1, 1, 20), .9), endless_reflectance(1), 1e-12);
    EXPECT_NEAR(over_backing(diffuse_layer(2, 5, 0), .37), .37, 1e-15);
    EXPECT_NEAR(over_backing(diffuse_layer(0, 0, 4), .37), .37, 1e-15);
    EXPECT_EQ(over_backing(diffuse_layer(0, 0, 0), 1), 1);
    for (const double s : {0., 1e-12, 1e-6, 1., 1e6})
        for (const double k : {0., 1e-12, 1e-6, 1., 1e6})
            for (const double x : {0., 1e-9, 1., 1e4}) {
                const DiffuseLayer layer = diffuse_layer(k, s, x);
                EXPECT_TRUE(layer.reflectance >= 0 && layer.transmittance >= 0) << k << ' ' << s << ' ' << x;
                EXPECT_LE(layer.reflectance + layer.transmittance, 1 + 1e-9);
                if (k == 0) {
                    EXPECT_NEAR(layer.reflectance + layer.transmittance, 1, 1e-9);
                }
            }
}

TEST(Body, TwoLayersAreOneOfTheSum) {  // Kubelka 1954: the layers' own composition rule
    const DiffuseLayer a = diffuse_layer(.3, .8, 1.3), b = diffuse_layer(.3, .8, .6),
                       both = diffuse_layer(.3, .8, 1.9);
    EXPECT_NEAR(both.reflectance, over_backing(a, b.reflectance), 1e-12);
    EXPECT_NEAR(both.transmittance, a.transmittance * b.transmittance / (1 - a.reflectance * b.reflectance),
                1e-12);
}

// Saunderson 1942 with k1 = 0.04, k2 = 0.6, the first-surface term k1 added.
TEST(Body, ThroughTheFace) {
    const double rows[][2] = {{.02, .047773}, {.1, .080851}, {.3, .180488},
                              {.5, .314286},  {.8, .630769}, {1, 1}};
    for (const auto& [inner, seen] : rows) EXPECT_NEAR(0.04 + through_interface(inner, .04, .6), seen, 1e-6);
    EXPECT_NEAR(0.04 + through_interface(.5, .04, .596), .316239, 1e-6);
    for (const double inner : {0., .01, .3, .77, 1.})
        EXPECT_NEAR(inside_interface(through_interface(inner, .092, .596), .092, .596), inner, 1e-12);
}

}  // namespace
}  // namespace rakelight
