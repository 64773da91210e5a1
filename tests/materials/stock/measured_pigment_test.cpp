#include "materials/stock/measured_pigment.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace rakelight {
namespace {

Drawdown draw(const Base& base, const Pigment& pigment, double share) {
    Recipe r;
    r.base = base;
    r.thickness_mm = 1e4;  // hides everything
    r.doses = {{pigment, share}};
    return {share, seen_reflectance(r)};
}

// Two equations, two unknowns: what the forward model makes is found again, through a bare and a glossy face.
TEST(MeasuredPigment, InvertsTwoDrawdowns) {
    for (const char* base_name : {"white-cement", "grey-cement", "filled-epoxy"}) {
        const Base& base = *find_base(base_name);
        for (const char* name : {"PB28", "PR101", "PBk11", "PG17", "PY42"}) {
            const Pigment& p = *find_pigment(name);
            const Pigment found = measured_pigment("mine", base, draw(base, p, 0.01), draw(base, p, 0.08));
            EXPECT_EQ(found.provenance, Provenance::measured);
            for (int b = 0; b < kBandCount; ++b) {
                EXPECT_NEAR(found.absorption_m2_per_g[b], p.absorption_m2_per_g[b],
                            2e-3 * p.absorption_m2_per_g[b] + 1e-5)
                    << base_name << name << b;
                EXPECT_NEAR(found.scattering_m2_per_g[b], p.scattering_m2_per_g[b],
                            2e-3 * p.scattering_m2_per_g[b] + 1e-4)
                    << base_name << name << b;
            }
        }
    }
}

// By hand, in a bare base of K 0, S 10 with 1 g/cm3 of binder: k = 2, s = 0.5 m2/g at 1 % is K 20, S 15, and
// at 10 % K 200, S 60.
TEST(MeasuredPigment, ByHand) {
    Base base;
    base.scattering_per_mm = SampledSpectrum(10);
    base.weighed_g_per_cm3 = 1;
    const auto endless = [](double q) {
        return SampledSpectrum(static_cast<float>(1 + q - std::sqrt(q * q + 2 * q)));
    };
    const Pigment p = measured_pigment("mine", base, {0.01, endless(20 / 15.)}, {0.10, endless(200 / 60.)});
    for (int b = 0; b < kBandCount; ++b) {
        EXPECT_NEAR(p.absorption_m2_per_g[b], 2, 1e-4);
        EXPECT_NEAR(p.scattering_m2_per_g[b], 0.5, 1e-4);
    }
}

// In the bare base of the check by hand a small error of the curves moves K of the strong drawdown by
// first order: dq/dR = (R^2 - 1) / (2 R^2) (Kubelka and Munk 1931), which the spread of the draws has to
// show.
TEST(MeasuredPigment, DrawsSpreadAsTheErrorOfTheCurvesDoes) {
    Base base;
    base.scattering_per_mm = SampledSpectrum(10);
    base.weighed_g_per_cm3 = 1;
    const auto endless = [](double q) {
        return SampledSpectrum(static_cast<float>(1 + q - std::sqrt(q * q + 2 * q)));
    };
    Drawdown tint{0.01, endless(20 / 15.)}, masstone{0.10, endless(200 / 60.)};
    EXPECT_TRUE(measured_pigment("mine", base, tint, masstone).draws.empty());
    masstone.error = SampledSpectrum(1e-3f);
    const Pigment p = measured_pigment("mine", base, tint, masstone);
    ASSERT_EQ(std::ssize(p.draws), kPigmentDraws);
    // s = (r2 - r1) / (q1 - q2) with r = q S0 / c: ds/dq2 by the quotient rule; k = r1 + q1 s.
    const double q1 = 20 / 15., q2 = 200 / 60., r1 = q1 * 10 / 10, r2 = q2 * 10 / 100;
    const double ds = (0.1 * (q1 - q2) + (r2 - r1)) / std::pow(q1 - q2, 2), dk = q1 * ds;
    const double seen = endless(q2)[0], dq = (1 - seen * seen) / (2 * seen * seen) * 1e-3;
    double sum = 0, squares = 0;
    for (const PigmentDraw& d : p.draws)
        for (int b = 0; b < kBandCount; ++b) {
            sum += d.absorption_m2_per_g[b] - 2;
            squares += std::pow(d.absorption_m2_per_g[b] - 2, 2);
        }
    const double n = kPigmentDraws * kBandCount, spread = std::sqrt(squares / n);
    EXPECT_NEAR(spread, std::abs(dk * dq), 0.25 * std::abs(dk * dq));
    EXPECT_LT(std::abs(sum / n), spread / 2);  // 24 smooth curves are few
    EXPECT_EQ(measured_pigment("mine", base, tint, masstone).draws[3].scattering_m2_per_g,
              p.draws[3].scattering_m2_per_g);
}

TEST(MeasuredPigment, RefusesWhatNoPigmentCanBe) {
    const Base& base = *find_base("white-cement");
    const Drawdown tint{0.01, SampledSpectrum(0.4f)}, strong{0.08, SampledSpectrum(0.1f)};
    EXPECT_NO_THROW(
        measured_pigment("mine", base, {0.01, SampledSpectrum(0.4f)}, {0.08, SampledSpectrum(0.2f)}));
    EXPECT_THROW(measured_pigment("mine", base, strong, tint), std::invalid_argument);  // wrong way round
    EXPECT_THROW(measured_pigment("mine", base, {0, SampledSpectrum(0.4f)}, strong), std::invalid_argument);
    EXPECT_THROW(measured_pigment("mine", base, tint, {1.2, SampledSpectrum(0.1f)}), std::invalid_argument);
    EXPECT_THROW(measured_pigment("mine", base, tint, {0.08, tint.seen}), std::invalid_argument);  // alike
    EXPECT_THROW(measured_pigment("mine", base, {0.01, SampledSpectrum(0)}, strong), std::invalid_argument);
    EXPECT_THROW(measured_pigment("mine", base, {0.01, SampledSpectrum(1)}, strong), std::invalid_argument);
    // More in the masstone than eight times the tint can bring: scattering would be negative.
    EXPECT_THROW(
        measured_pigment("mine", base, {0.01, SampledSpectrum(0.7f)}, {0.08, SampledSpectrum(0.01f)}),
        std::invalid_argument);
    try {
        SampledSpectrum dark(0.2f);
        dark[6] = 0;
        measured_pigment("mine", base, tint, {0.08, dark});
        ADD_FAILURE();
    } catch (const std::invalid_argument& e) {
        EXPECT_NE(std::string(e.what()).find("520 nm"), std::string::npos) << e.what();
    }
}

}  // namespace
}  // namespace rakelight
