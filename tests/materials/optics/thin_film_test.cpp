// Thin films against closed forms and worked examples of Born and Wolf, "Principles of Optics", 1.6 (from
// memory of the text; the formulas are derived beside each check).
#include "materials/optics/thin_film.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/optics/fresnel.h"

namespace rakelight {
namespace {

// No layer: Fresnel's law at a bare face, at every angle.
TEST(ThinFilm, NoneIsABareFace) {
    for (const double z : {1.0, 0.8, 0.5, 0.2, 0.05})
        EXPECT_NEAR(film_reflectance(1, {}, 1.52, z, 550),
                    static_cast<double>(dielectric_reflectance(static_cast<float>(z), 1.52f)), 1e-6);
}

// A quarter wave, upright: R = ((n1 n3 - n2^2) / (n1 n3 + n2^2))^2 (1.6.5). Magnesium fluoride (1.38) on
// glass (1.52): 1.26 % against 4.26 % of the bare face.
TEST(ThinFilm, AQuarterWaveOfMagnesiumFluorideOnGlass) {
    const FilmLayer quarter{1.38, 550 / (4 * 1.38)};
    const double closed = std::pow((1.52 - 1.38 * 1.38) / (1.52 + 1.38 * 1.38), 2);
    EXPECT_NEAR(film_reflectance(1, {&quarter, 1}, 1.52, 1, 550), closed, 1e-9);
    EXPECT_NEAR(closed, 0.0126, 5e-5);
}

// A half wave, upright, is as if it were not there.
TEST(ThinFilm, AHalfWaveIsAbsent) {
    const FilmLayer half{2.3, 550 / (2 * 2.3)};
    EXPECT_NEAR(film_reflectance(1, {&half, 1}, 1.52, 1, 550), std::pow(0.52 / 2.52, 2), 1e-9);
}

// N pairs of quarter waves, high index outermost: R = ((1 - Y) / (1 + Y))^2, Y = (nH / nL)^(2N) n3 of pairs
// H L on glass, and nH^2 / n3 more with a last H (1.6.5, periodic layers).
TEST(ThinFilm, QuarterWaveStacks) {
    constexpr double kHigh = 2.3, kLow = 1.38, kGlass = 1.52;
    for (int pairs = 1; pairs <= 5; ++pairs) {
        std::vector<FilmLayer> layers;
        for (int i = 0; i < pairs; ++i) {
            layers.push_back({kHigh, 550 / (4 * kHigh)});
            layers.push_back({kLow, 550 / (4 * kLow)});
        }
        layers.push_back({kHigh, 550 / (4 * kHigh)});
        const double y = std::pow(kHigh / kLow, 2 * pairs) * kHigh * kHigh / kGlass;
        EXPECT_NEAR(film_reflectance(1, layers, kGlass, 1, 550), std::pow((1 - y) / (1 + y), 2), 1e-9);
    }
}

// Airy's sum of all passes of one layer, in each polarisation, at a slant.
TEST(ThinFilm, OneLayerIsAirysSum) {
    constexpr double kFilm = 1.9, kUnder = 1.52, kThick_nm = 310;
    for (const double z : {0.95, 0.6, 0.3})
        for (const double nm : {420.0, 550.0, 680.0}) {
            const double s = std::sqrt(1 - z * z), z2 = std::sqrt(1 - s * s / (kFilm * kFilm)),
                         z3 = std::sqrt(1 - s * s / (kUnder * kUnder));
            const double phase = 4 * std::numbers::pi / nm * kFilm * kThick_nm * z2;
            double sum = 0;
            for (const bool across : {true, false}) {
                const auto face = [&](double n, double zn, double m, double zm) {
                    return across ? (n * zn - m * zm) / (n * zn + m * zm)
                                  : (n * zm - m * zn) / (n * zm + m * zn);
                };
                const double r = face(1, z, kFilm, z2), q = face(kFilm, z2, kUnder, z3);
                sum += (r * r + q * q + 2 * r * q * std::cos(phase)) /
                       (1 + r * r * q * q + 2 * r * q * std::cos(phase));
            }
            EXPECT_NEAR(film_reflectance(1, std::vector<FilmLayer>{{kFilm, kThick_nm}}, kUnder, z, nm),
                        sum / 2, 1e-9);
        }
}

// Film colours run to blue as they are looked at aslant: the phase is 2 n d cos t, which shrinks.
TEST(ThinFilm, ColourRunsToBlueAslant) {
    const FilmLayer film{1.38, 550 / (2 * 1.38) * 1.5};
    const auto peak_nm = [&](double z) {
        double best = 0, at = 0;
        for (double nm = 400; nm <= 700; nm += 1)
            if (const double r = film_reflectance(1, {&film, 1}, 1.2, z, nm); r > best) best = r, at = nm;
        return at;
    };
    EXPECT_LT(peak_nm(0.7), peak_nm(1) - 30);
}

}  // namespace
}  // namespace rakelight
