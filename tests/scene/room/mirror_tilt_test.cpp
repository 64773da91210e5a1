// The law of reflection: a mirror's normal halves the angle between lamp and eye.
#include "scene/room/mirror_tilt.h"

#include <gtest/gtest.h>

#include <numbers>

namespace rakelight {

// A spot 3.0 m up and 0.81 m out (30 degree rule), an eye 2.0 m away, both in the plane across the wall. The
// tilt is (elevation of the lamp + elevation of the eye) / 2, both as seen from the piece.
TEST(MirrorTilt, TableOfAGallerySpot) {
    struct Row {
        double piece_m, eye_m, tilt_deg;
    };
    for (const Row& row : {Row{2.20, 1.60, 14},
                           {2.20, 1.15, 8.5},
                           {2.20, 1.00, 6.9},
                           {1.90, 1.60, 23},
                           {1.90, 1.15, 17},
                           {1.90, 1.00, 15},
                           {1.60, 1.60, 30},
                           {1.60, 1.15, 24},
                           {1.60, 1.00, 22},
                           {1.45, 1.60, 33},
                           {1.45, 1.15, 27},
                           {1.45, 1.00, 25},
                           {1.00, 1.60, 42},
                           {1.00, 1.15, 36},
                           {1.00, 1.00, 34}}) {
        const NeededTilt tilt =
            needed_tilt({0, 1000 * row.piece_m, 0}, {0, 3000, 810}, {0, 1000 * row.eye_m, 2000});
        EXPECT_NEAR(tilt.up_deg, row.tilt_deg, 1) << row.piece_m << ' ' << row.eye_m;
        EXPECT_NEAR(tilt.aside_deg, 0, 1e-9);
        EXPECT_NEAR(tilt.total_deg, tilt.up_deg, 1e-9);
        const double elevations =
            std::atan2(3 - row.piece_m, 0.81) + std::atan2(row.eye_m - row.piece_m, 2.0);
        EXPECT_NEAR(tilt.up_deg, elevations / 2 * 180 / std::numbers::pi, 1e-9);
    }
}

// The top band is the glare zone, and lower eyes always get more of it.
TEST(MirrorTilt, HighPiecesAndLowEyesNeedLess) {
    double last = 90;
    for (const double piece_mm : {1000, 1450, 1600, 1900, 2200}) {
        const auto tilt = [&](double eye_mm) {
            return needed_tilt({0, piece_mm, 0}, {0, 3000, 810}, {0, eye_mm, 2000}).up_deg;
        };
        EXPECT_LT(tilt(1600), last);
        EXPECT_LT(tilt(1150), tilt(1600));
        EXPECT_LT(tilt(1000), tilt(1150));
        last = tilt(1600);
    }
}

// What a mirror throws at the eye comes from the lamp: the incoming ray, turned at the normal.
TEST(MirrorTilt, ReflectionGoesFromEyeToLamp) {
    const glm::dvec3 at(120, 1500, 30), lamp(-900, 2900, 1100), eye(400, 1300, 1800);
    const glm::dvec3 n = mirroring_normal(at, lamp, eye);
    const glm::dvec3 in = glm::normalize(at - eye);
    const glm::dvec3 out = in - 2 * glm::dot(in, n) * n;
    EXPECT_LT(glm::distance(out, glm::normalize(lamp - at)), 1e-12);
    EXPECT_EQ(mirroring_normal({0, 0, 0}, {1, 0, 0}, {-1, 0, 0}), glm::dvec3(0, 0, 1));
}

// A panel that leans into the room by so much needs so much more upward tilt in its own axes.
TEST(MirrorTilt, LeanAddsToTheTilt) {
    const glm::dvec3 at(0, 1450, 20), lamp(0, 2900, 810), eye(0, 1600, 2000);
    const double upright = needed_tilt(at, lamp, eye).up_deg;
    for (const double lean : {2.0, 5.0, 8.0})
        EXPECT_NEAR(needed_tilt(at, lamp, eye, lean).up_deg, upright + lean, 1e-9);
    EXPECT_GT(needed_tilt(at, {800, 1450, 900}, {0, 1450, 900}).aside_deg, 10);
}

// e^2 / (2 s^2) exp(-t^2 / (2 s^2)) by hand: e 1; s 3, t 5 -> 1.4 %; s 5, t 9 -> 0.40 %; s 8, t 14 -> 0.17 %.
TEST(MirrorTilt, ShareOfPiecesThatFlash) {
    EXPECT_NEAR(share_that_mirrors(5, 3, 1), 0.0139, 0.0001);
    EXPECT_NEAR(share_that_mirrors(9, 5, 1), 0.0040, 0.0001);
    EXPECT_NEAR(share_that_mirrors(14, 8, 1), 0.0017, 0.0001);
    EXPECT_LT(share_that_mirrors(5, 1, 1), 3e-6);
    // Against the sum over the disc of the two-dimensional normal density.
    constexpr int kSide = 400;
    const double s = 4, t = 6, e = 0.8;
    double sum = 0;
    for (int i = 0; i < kSide * kSide; ++i) {
        const double x = (2 * (i % kSide + 0.5) / kSide - 1) * e, y = (2 * (i / kSide + 0.5) / kSide - 1) * e;
        if (x * x + y * y > e * e) continue;
        const double r2 = (t + x) * (t + x) + y * y;
        sum += std::exp(-r2 / (2 * s * s)) / (2 * std::numbers::pi * s * s) * (4 * e * e / (kSide * kSide));
    }
    EXPECT_NEAR(share_that_mirrors(t, s, e) / sum, 1, 0.02);
}

}  // namespace rakelight
