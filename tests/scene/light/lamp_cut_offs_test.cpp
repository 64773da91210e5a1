// Barn doors, honeycomb and snoot against closed forms. A black tube before a matte disc, as long as its
// radius, passes the configuration factor of two equal coaxial discs at that distance, 0.381966 (Howell, "A
// Catalog of Radiation Heat Transfer Configuration Factors", C-41; from the closed form).
#include <gtest/gtest.h>

#include "tests/support/lamp_samples.h"

namespace rakelight {
namespace {

constexpr double kTubeFactor = 0.381966;

Lamp matte_disc() {
    Lamp lamp = lamp_of_form(LampForm::spot);
    lamp.beam_deg = 120;  // a plain cosine
    lamp.width_mm = 100;
    return lamp;
}

glm::vec3 aside(double deg) {  // from straight down, towards -x: the left as seen along the beam
    return glm::vec3(-sin_deg(deg), -cos_deg(deg), 0);
}

}  // namespace

TEST(LampCutOffs, TubesPassTheFactorOfTwoDiscs) {
    Lamp snoot = matte_disc();
    snoot.fittings.snoot = {50, 100};
    EXPECT_NEAR(flux_of(emitter_of(snoot), 240, 8) / 1000, kTubeFactor, 0.01 * kTubeFactor);
    Lamp comb = lamp_of_form(LampForm::panel);
    comb.fittings.honeycomb = {6, 3};
    EXPECT_NEAR(flux_of(emitter_of(comb), 240, 8) / 1000, kTubeFactor, 0.01 * kTubeFactor);
}

TEST(LampCutOffs, HoneycombCutsOffAtItsAngle) {
    Lamp lamp = matte_disc();
    lamp.fittings.honeycomb = {6, 12};
    EXPECT_NEAR(cut_off_deg(lamp.fittings.honeycomb), 26.565, 1e-3);  // atan(1 / 2)
    const Emitter bare = emitter_of(matte_disc()), e = emitter_of(lamp);
    EXPECT_NEAR(candela_toward(e, aside(0)), candela_toward(bare, aside(0)), 0.1);
    EXPECT_EQ(candela_toward(e, aside(26.6)), 0);
    EXPECT_GT(candela_toward(e, aside(26.0)), 0);
    // Halfway in the tangent two circles share 2/3 - sqrt(3)/(2 pi) of their area.
    const double half = std::atan(0.25) * 180 / std::numbers::pi;
    EXPECT_NEAR(candela_toward(e, aside(half)) / candela_toward(bare, aside(half)),
                2.0 / 3 - std::sqrt(3) / (2 * std::numbers::pi), 1e-4);
}

TEST(LampCutOffs, SnootHasAPenumbraFromTheDisc) {
    Lamp lamp = matte_disc();
    lamp.fittings.snoot = {200, 140};
    const double clear = clear_deg(lamp.fittings.snoot, 100), end = cut_off_deg(lamp.fittings.snoot, 100);
    EXPECT_NEAR(clear, 5.711, 1e-3);  // atan((70 - 50) / 200)
    EXPECT_NEAR(end, 30.964, 1e-3);   // atan((70 + 50) / 200)
    const Emitter bare = emitter_of(matte_disc()), e = emitter_of(lamp);
    const auto share = [&](double deg) {
        return candela_toward(e, aside(deg)) / candela_toward(bare, aside(deg));
    };
    EXPECT_NEAR(share(clear - 0.1), 1, 1e-9);
    EXPECT_LT(share(clear + 2), 1);
    EXPECT_GT(share(end - 1), 0);
    EXPECT_EQ(share(end + 0.1), 0);
    // Two circles of 50 and 70 mm whose centres lie d apart: their common lens, by the usual formula.
    const double d = 200 * std::tan(18 * std::numbers::pi / 180), r = 50, q = 70;
    const double lens = r * r * std::acos((d * d + r * r - q * q) / (2 * d * r)) +
                        q * q * std::acos((d * d + q * q - r * r) / (2 * d * q)) -
                        0.5 * std::sqrt((-d + r + q) * (d + r - q) * (d - r + q) * (d + r + q));
    EXPECT_NEAR(share(18), lens / (std::numbers::pi * r * r), 0.01);
}

// A door at the edge of a panel hides what lies beyond a straight line: a share that falls evenly with the
// tangent.
TEST(LampCutOffs, BarnDoorsAreHalfPlanes) {
    for (const double open : {-20.0, 0.0, 30.0}) {
        Lamp lamp = lamp_of_form(LampForm::panel);
        lamp.width_mm = 200;
        lamp.height_mm = 100;
        const Emitter bare = emitter_of(lamp);
        lamp.fittings.doors.length_mm = 150;
        lamp.fittings.doors.open_deg[0] = open;  // left
        const Emitter e = emitter_of(lamp);
        for (const double deg : {-70.0, -30.0, -8.0, 0.0, 10.0, 25.0, 40.0, 60.0, 80.0}) {
            const double t = std::tan(deg * std::numbers::pi / 180);
            const double expected =
                std::clamp((200 + 150 * sin_deg(open) - 150 * cos_deg(open) * t) / 200, 0.0, 1.0);
            EXPECT_NEAR(candela_toward(e, aside(deg)) / candela_toward(bare, aside(deg)), expected, 0.01)
                << open << ' ' << deg;
        }
    }
}

// Through a mirror the eye sees which part of the face is hidden: single points are, not an average.
TEST(LampCutOffs, DoorsHidePartsOfTheFace) {
    Lamp lamp = lamp_of_form(LampForm::panel);
    lamp.width_mm = 200;
    lamp.fittings.doors.length_mm = 100;
    lamp.fittings.doors.open_deg[0] = 0;
    const Emitter e = emitter_of(lamp);
    const glm::vec3 d = aside(45);  // moves 100 mm to the left on its way past the door: half of the face
    EXPECT_EQ(luminance_cd_per_m2(e, d, {10, 0}), 0);
    EXPECT_NEAR(luminance_cd_per_m2(e, d, {-10, 0}), e.peak_cd_per_m2, 1e-3);
}

}  // namespace rakelight
