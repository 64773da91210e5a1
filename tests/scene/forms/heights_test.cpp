#include "scene/forms/heights.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/forms/piece_form.h"
#include "scene/geometry/patch_waves.h"
#include "scene/model/layout.h"
#include "scene/room/lean.h"
#include "scene/room/panel_frame.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

Piece square_at(const glm::dvec2& at, std::uint64_t seed) {
    Piece p;
    p.outline_mm = {at + glm::dvec2(-5, -5), at + glm::dvec2(5, -5), at + glm::dvec2(5, 5),
                    at + glm::dvec2(-5, 5)};
    p.seed = hash_combine(99, seed);
    return p;
}

// One piece from each of many panels: independent draws.
std::vector<Piece> drawn(Layout layout, int count) {
    std::vector<Piece> pieces;
    for (int i = 0; i < count; ++i) {
        const auto seed = static_cast<std::uint64_t>(i);
        Rng rng(seed);
        std::vector<Piece> one{square_at({rng.within(20, 580), rng.within(20, 380)}, seed)};
        set_heights(layout, layout.fields[0], face_plane_mm(layout), hash_combine(5, seed), one);
        pieces.push_back(one[0]);
    }
    return pieces;
}

// n s^2 / sigma^2 is chi-square distributed with n degrees of freedom when the mean is known: mean n,
// variance 2n, nearly normal for large n. Within four deviations. The shared part is only nearly normal, by
// the central limit of its waves (excess kurtosis -1.5 / 24 of its own square), which narrows the bound,
// never widens it.
void expect_deviation(double sum_of_squares, int n, double sigma) {
    EXPECT_NEAR(sum_of_squares / (sigma * sigma), n, 4 * std::sqrt(2.0 * n)) << sigma;
}

TEST(Heights, TiltAndLippageHaveTheDeviationAskedFor) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    layout.panel.substrate.bed_mm = 30;  // room to press in
    constexpr int kCount = 8000;
    for (const double tilt : {0.5, 2.2, 6.0}) {
        layout.fields[0].tilt_deg = tilt;
        layout.fields[0].lippage_mm = 0.3 * tilt;
        layout.fields[0].setting.most_lippage_mm = 100;
        double x = 0, y = 0, z = 0;
        for (const auto& p : drawn(layout, kCount)) {
            x += std::pow(std::tan(p.tilt_rad.x), 2);
            y += std::pow(std::tan(p.tilt_rad.y), 2);
            z += std::pow(p.top_mm - face_plane_mm(layout), 2);
        }
        const double slope = std::tan(glm::radians(tilt));
        expect_deviation(x, kCount, slope);
        expect_deviation(y, kCount, slope);
        expect_deviation(z, kCount, 0.3 * tilt);
    }
}

TEST(Heights, BoundsAreKept) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    layout.fields[0].tilt_deg = 4.5;
    layout.fields[0].lippage_mm = 0.8;
    layout.fields[0].setting.most_tilt_deg = 12;
    layout.fields[0].setting.most_lippage_mm = 1.2;
    double most_tilt = 0, most_lippage = 0;
    for (const auto& p : drawn(layout, 4000)) {
        most_tilt = std::max(most_tilt, glm::degrees(std::atan(glm::length(glm::tan(p.tilt_rad)))));
        most_lippage = std::max(most_lippage, std::abs(p.top_mm - face_plane_mm(layout)));
    }
    EXPECT_LE(most_tilt, 12 + 1e-9);
    EXPECT_GT(most_tilt, 11);  // the tails are there: one in 35 lies beyond 12 degrees unbounded
    EXPECT_LE(most_lippage, 1.2 + 1e-9);
}

TEST(Heights, NeighboursShareTheTiltOfTheirPatch) {
    // Correlation of two pieces r apart: kPatchShare exp(-r^2 / (2 l^2)), l half a patch. The sampling
    // deviation of a correlation rho from n pairs is (1 - rho^2) / sqrt(n) (Fisher 1921).
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    layout.fields[0].tilt_deg = 2;
    layout.fields[0].setting.patch_mm = 200;
    constexpr int kPairs = 8000;
    for (const double r : {12.0, 100.0, 200.0, 400.0}) {
        double xy = 0, xx = 0, yy = 0;
        for (int i = 0; i < kPairs; ++i) {
            const auto seed = static_cast<std::uint64_t>(i);
            std::vector<Piece> two{square_at({60, 200}, 2 * seed), square_at({60 + r, 200}, 2 * seed + 1)};
            set_heights(layout, layout.fields[0], face_plane_mm(layout), hash_combine(7, seed), two);
            const double a = std::tan(two[0].tilt_rad.x), b = std::tan(two[1].tilt_rad.x);
            xy += a * b;
            xx += a * a;
            yy += b * b;
        }
        const double wanted = kPatchShare * std::exp(-r * r / (2 * 100.0 * 100));
        EXPECT_NEAR(xy / std::sqrt(xx * yy), wanted, 4 / std::sqrt(double(kPairs))) << r;
    }
}

TEST(Heights, ShareOfGlintsIsThatOfTheClosedForm) {
    // A normal within e of the one needed, t off the panel's own, flashes. For tilts of deviation s per axis
    // and small e the share is e^2 / (2 s^2) exp(-t^2 / (2 s^2)): the density of the two-dimensional normal
    // distribution at t times the area of a disc. Binomial bound of four deviations, and e^2 / s^2 for the
    // curvature that the small disc leaves out.
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    constexpr int kCount = 60'000;
    for (const auto& [s, t] : {std::pair{3.0, 5.0}, std::pair{5.0, 9.0}, std::pair{3.0, 0.0}}) {
        layout.fields[0].tilt_deg = s;
        const double e = 1;
        int lit = 0;
        for (const auto& p : drawn(layout, kCount)) {
            const glm::dvec2 off = glm::degrees(p.tilt_rad) - glm::dvec2(0, t);
            lit += glm::length(off) < e;
        }
        const double share = e * e / (2 * s * s) * std::exp(-t * t / (2 * s * s));
        const double bound = 4 * std::sqrt(share / kCount) + share * e * e / (s * s);
        EXPECT_NEAR(lit / double(kCount), share, bound) << s << ' ' << t;
    }
}

TEST(Heights, LeaningFacesThrowTheLampIntoTheEye) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    layout.panel.lean_deg = 4;
    Lamp lamp;
    lamp.name = "spot";
    lamp.at_mm = {500, 2000, 1800};
    Viewpoint view;
    view.name = "bench";
    view.eye_mm = {-300, 1150, 2000};
    layout.on.lamps = {lamp};
    layout.views.viewpoints = {view};
    Field& field = layout.fields[0];
    field.tilt_deg = field.lippage_mm = 0;
    field.setting.lean.lamp = "spot";
    field.setting.lean.viewpoint = "bench";
    field.setting.lean.mean_deg = 40;  // as far as it needs
    std::vector<Piece> one{square_at({120, 300}, 1)};
    set_heights(layout, field, face_plane_mm(layout), 1, one);
    // Mirror the way to the lamp in the face, in room coordinates: closed form, the law of reflection.
    const glm::dvec3 on_panel(120, 300, face_plane_mm(layout));
    const PanelFrame frame = panel_frame(layout.panel);
    const glm::dvec3 here = frame.to_room_mm(on_panel);
    const auto axis = [&](const glm::dvec3& a) { return frame.to_room_mm(on_panel + a) - here; };
    const glm::dvec3 n = glm::normalize(-std::tan(one[0].tilt_rad.x) * axis({1, 0, 0}) -
                                        std::tan(one[0].tilt_rad.y) * axis({0, 1, 0}) + axis({0, 0, 1}));
    const glm::dvec3 to_lamp = glm::normalize(lamp.at_mm - here), to_eye = glm::normalize(view.eye_mm - here);
    const glm::dvec3 mirrored = 2 * glm::dot(n, to_lamp) * n - to_lamp;
    EXPECT_NEAR(glm::distance(mirrored, to_eye), 0, 1e-6);
    // Asked for less, it turns by just that.
    field.setting.lean.mean_deg = 8;
    set_heights(layout, field, face_plane_mm(layout), 1, one);
    EXPECT_NEAR(glm::degrees(std::atan(glm::length(glm::tan(one[0].tilt_rad)))), 8, 1e-9);
}

TEST(Heights, PebblesAreSetTwoThirdsDeepAndChunksStandOnTheirBed) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    Field& field = layout.fields[0];
    field.tilt_deg = field.lippage_mm = 0;
    field.recess_mm = 1.5;
    const double plane = face_plane_mm(layout);
    std::vector<Piece> one{square_at({50, 50}, 1)};
    field.setting.form = PieceForm::pebble;
    set_heights(layout, field, plane, 1, one);
    const double joint = plane - field.recess_mm;
    EXPECT_NEAR((joint - (one[0].top_mm - one[0].thickness_mm)) / one[0].thickness_mm, 2.0 / 3, 1e-9);
    one = {square_at({50, 50}, 1)};
    field.setting.form = PieceForm::chunk;
    set_heights(layout, field, plane, 1, one);
    EXPECT_GE(one[0].top_mm - plane, 5);
    EXPECT_NEAR(one[0].top_mm - one[0].thickness_mm, layout.panel.substrate.bed_mm, 1e-9);
}

TEST(PatchWaves, HaveUnitVarianceAndTheStatedCorrelation) {
    constexpr int kCount = 20'000;
    for (const double r : {0.0, 0.5, 1.0, 2.0}) {
        double sum = 0;
        for (int i = 0; i < kCount; ++i) {
            const PatchWaves waves(static_cast<std::uint64_t>(i), 10);
            sum += waves.at({3, 4}) * waves.at({3, 4 + 10 * r});
        }
        // A product of two such values has a deviation below sqrt(3).
        EXPECT_NEAR(sum / kCount, std::exp(-r * r / 2), 4 * std::sqrt(3.0 / kCount)) << r;
    }
}

}  // namespace
}  // namespace rakelight
