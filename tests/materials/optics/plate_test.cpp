// The judges of a photographed plate: light itself walking through it, and closed forms where it is clear.
#include "materials/optics/plate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "materials/optics/fresnel.h"
#include "tests/support/plate_walk.h"

namespace rakelight {
namespace {

LayerFrame frame_of(double index) {
    const InterfaceTable face = make_interface_table(static_cast<float>(index), 0);
    return make_layer_frame(&face);
}

TEST(Plate, AgreesWithARandomWalk) {
    const double white = 0.88, black = 0.04;
    const std::vector<double> absorption{0.002, 0.03, 0.2, 0.8};
    double worst = 0;
    for (const Lying lying : {Lying::dry, Lying::bonded})
        for (const PhotographLight light : {PhotographLight::at_45_deg, PhotographLight::diffuse})
            for (const double scattering : {0.0, 0.01, 0.1, 0.6, 3.0})
                for (const double thickness : {1.5, 6.0}) {
                    WalkedPlate p;
                    p.thickness_mm = thickness;
                    p.scattering_per_mm = scattering;
                    p.absorption_per_mm = absorption;
                    p.cards = {std::vector(4, white), std::vector(4, black)};
                    p.lying = lying;
                    p.light = light;
                    const auto walked = PlateWalk(p, 5).run(20000);
                    const LayerFrame frame = frame_of(p.index);
                    for (std::size_t b = 0; b < absorption.size(); ++b) {
                        const Plate plate =
                            make_plate(frame, {absorption[b], scattering, thickness, 0}, lying, light);
                        for (std::size_t card = 0; card < 2; ++card) {
                            const double ours = plate.over(card == 0 ? white : black),
                                         theirs = walked[card][b];
                            // 0.3 % of a white, three standard errors of the walk, or 2 % of what is seen.
                            EXPECT_NEAR(ours, theirs, 0.003 + 0.02 * theirs)
                                << (lying == Lying::dry ? "dry" : "bonded") << " light "
                                << (light == PhotographLight::diffuse ? "diffuse" : "45") << " K "
                                << absorption[b] << " S " << scattering << " d " << thickness << " card "
                                << card;
                            worst = std::max(worst, std::fabs(ours - theirs));
                        }
                    }
                }
    std::printf("plates against the walk: worst %.4f of radiance factor\n", worst);
}

// Clear glass lying dry, light at 45 degrees: Fresnel and Beer-Lambert with a geometric series in the plate
// and one between plate and card (Stokes 1862; the card's returns by the plate's mean over a hemisphere).
TEST(Plate, ClearAndDryIsAPileOfTwoFaces) {
    const double n = 1.52, f0 = dielectric_reflectance(1.0, n),
                 f45 = dielectric_reflectance(std::sqrt(0.5), n);
    const auto passes = [&](double outside, double depth) {
        const double f = dielectric_reflectance(outside, n);
        const double t = std::exp(-depth / std::sqrt(1 - (1 - outside * outside) / (n * n)));
        return (1 - f) * (1 - f) * t / (1 - f * f * t * t);
    };
    for (const double depth : {0.0, 0.2, 1.5}) {
        const Plate plate = make_plate(frame_of(n), {depth, 0, 1, 0}, Lying::dry, PhotographLight::at_45_deg);
        EXPECT_NEAR(plate.over_black, 0, 1e-4);
        EXPECT_NEAR(plate.through, passes(1, depth) * passes(std::sqrt(0.5), depth), 2e-3 * plate.through);
        double returned = 0;
        for (int i = 0; i < 20000; ++i) {
            const double z = std::sqrt((i + 0.5) / 20000), f = dielectric_reflectance(z, n);
            const double t = std::exp(-depth / std::sqrt(1 - (1 - z * z) / (n * n)));
            returned += (f + (1 - f) * (1 - f) * t * t * f / (1 - f * f * t * t)) / 20000;
        }
        EXPECT_NEAR(plate.returned, returned, 2e-3);
    }
    EXPECT_GT(f45, f0);
}

// Without a gap the plate is the layer that pictures are made of: lit evenly, the same albedo at the normal.
TEST(Plate, BondedAndEvenlyLitIsTheLayer) {
    const InterfaceTable face = make_interface_table(1.52f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    for (const double k : {0.0, 0.05, 0.6})
        for (const double s : {0.001, 0.1, 2.0})
            for (const double backing : {0.03, 0.8}) {
                const double layer = layer_albedo(frame, LayerBand{k, s, 4, backing})[kLayerNodes - 1];
                const Plate plate = make_plate(frame, {k, s, 4, 0}, Lying::bonded, PhotographLight::diffuse);
                EXPECT_NEAR(plate.over(backing), layer * (1 - face.albedo(1.f)), 1e-3 * layer + 1e-5);
            }
}

TEST(Plate, WhiteWithoutLossGivesAllBack) {  // energy: an endless stack of lossless plates over white
    for (const Lying lying : {Lying::dry, Lying::bonded})
        for (const double s : {0.0, 0.05, 1.0}) {
            const Plate plate = make_plate(frame_of(1.5), {0, s, 3, 0}, lying, PhotographLight::diffuse);
            // All but what both faces mirror straight back along the normal, which is not of the glass.
            const double f = dielectric_reflectance(1.0, 1.5), t = std::exp(-4 * s);
            const double mirrored =
                f + (lying == Lying::dry ? (1 - f) * (1 - f) * f * t * t / (1 - f * f * t * t) : 0);
            EXPECT_NEAR(plate.over(1), 1 - mirrored, 2e-3) << s;
        }
}

}  // namespace
}  // namespace rakelight
