// What to move, where geometry says what is best: a flat mirror, one lamp, one eye.
#include "output/glare/moving/what_to_move.h"
#include "output/glare/moving/also_tried.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rakelight {
namespace {

constexpr double kWidth_mm = 400, kHeight_mm = 300, kPiece_mm = 5, kBulb_mm = 40;

// A bulb behind the eye, both as high as the middle of a panel that hangs flat.
Layout room() {
    Layout layout;
    layout.panel.width_mm = kWidth_mm;
    layout.panel.height_mm = kHeight_mm;
    layout.panel.centre_height_mm = 1500;
    Lamp bulb;
    bulb.name = "bulb";
    bulb.form = LampForm::bulb;
    bulb.at_mm = {0, 1500, 3000};
    bulb.candela = 100;
    bulb.width_mm = kBulb_mm;
    layout.on.lamps = {bulb};
    return layout;
}

const glm::dvec3 kEye_mm{0, 1500, 2000};

std::vector<SmallMirror> flat_mirror() {
    std::vector<SmallMirror> mirrors;
    for (double y = kPiece_mm / 2; y < kHeight_mm; y += kPiece_mm)
        for (double x = kPiece_mm / 2; x < kWidth_mm; x += kPiece_mm) {
            SmallMirror m;
            m.at_mm = {x, y, 0};
            m.index = 1.5;
            m.area_mm2 = kPiece_mm * kPiece_mm;
            m.half_mm = kPiece_mm / 2;
            m.body = m.body_round = 0.05;
            mirrors.push_back(m);
        }
    return mirrors;
}

// Where on a plane mirror the image of a lamp is seen: the line from the eye to the lamp behind the mirror,
// in the panel's own axes, meets it at (e * lamp's distance + l * eye's distance) / (both distances).
glm::dvec2 image_at_mm(const Layout& layout, double lean_deg) {
    const PanelFrame hang = panel_frame(layout.panel, lean_deg, layout.panel.centre_height_mm);
    const glm::dvec3 e = hang.to_panel_mm(kEye_mm), l = hang.to_panel_mm(layout.on.lamps[0].at_mm);
    return (glm::dvec2(e) * l.z + glm::dvec2(l) * e.z) / (e.z + l.z);
}

GlareTerms still() {
    GlareTerms terms;
    terms.head_mm = 0;
    return terms;
}

// The score of a plane mirror: the image of a bulb of radius r, d1 + d2 away, covers a disc of radius
// r d1 / (d1 + d2) on it, at the reflectance of glass square on, ((n - 1) / (n + 1))^2 = 4 %.
TEST(ExpectedGlare, OfAPlaneMirrorIsTheImageItself) {
    const Layout layout = room();
    const PanelFrame hang = panel_frame(layout.panel);
    const Emitter bulb = make_emitter(layout.on.lamps[0], glm::dvec3(0), 0);
    const GlareTerms terms = still();
    const LampEffect effect =
        effect_of(bulb, hang, flat_mirror(), std::vector{kEye_mm}, meter_grid(layout.panel), terms);
    const double d1 = kEye_mm.z - hang.origin_mm.z, d2 = 3000 - hang.origin_mm.z, pi = 3.14159265358979;
    const double radius = kBulb_mm / 2 * d1 / (d1 + d2),
                 share = pi * radius * radius / (kWidth_mm * kHeight_mm);
    const double luminance = 100 / (pi * 0.02 * 0.02), body = 0.05 * terms.lux / pi;
    const double expected = 100 * share * std::log10(0.04 * luminance / (0.5 * body));
    EXPECT_NEAR(effect.score[0], expected, 0.02 * expected);
}

TEST(ExpectedGlare, AnEyeBehindThePanelSeesNothing) {
    const Layout layout = room();
    const Emitter bulb = make_emitter(layout.on.lamps[0], glm::dvec3(0), 0);
    const LampEffect effect =
        effect_of(bulb, panel_frame(layout.panel), flat_mirror(), std::vector{glm::dvec3(0, 1500, -100)},
                  meter_grid(layout.panel), still());
    EXPECT_EQ(effect.score[0], 0);
}

// Waves spread the image over more of the panel and leave its light as it is: as many pieces mirror, each
// less.
TEST(ExpectedGlare, WavesSpreadTheImageButKeepItsLight) {
    const Layout layout = room();
    const Emitter bulb = make_emitter(layout.on.lamps[0], glm::dvec3(0), 0);
    const auto score = [&](double wave_deg) {
        auto mirrors = flat_mirror();
        for (SmallMirror& m : mirrors) m.wave_slope = std::tan(glm::radians(wave_deg));
        return effect_of(bulb, panel_frame(layout.panel), mirrors, std::vector{kEye_mm},
                         meter_grid(layout.panel), still())
            .score[0];
    };
    EXPECT_NEAR(score(0.6), score(0), 0.1 * score(0));
}

TEST(WhatToMove, LeansAsFarAsThrowsTheImageOffThePanelAndNoFarther) {
    const Layout layout = room();
    MoveBounds bounds;
    bounds.lean_deg = glm::dvec2(0, 8);
    const MoveSearch found = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    const double image_mm = kBulb_mm / 2 * 0.4 + kPiece_mm / 2;
    double least = 0;
    while (image_at_mm(layout, least).y < kHeight_mm + image_mm) least += 1;
    ASSERT_EQ(found.better.size(), 1u);
    EXPECT_GT(found.present.worst, 0.1);
    EXPECT_NEAR(found.better[0].worst, 0, 1e-9);
    EXPECT_DOUBLE_EQ(found.better[0].how.lean_deg, least);
    EXPECT_EQ(found.better[0].changed, std::vector<std::size_t>{0});
    EXPECT_EQ(found.gone_through, 8u);
}

// Height alone: hung so low that the image, halfway between eye and lamp in height, stands over its top.
TEST(WhatToMove, HangsLowerWhenThatIsAllThatMayMove) {
    const Layout layout = room();
    MoveBounds bounds;
    bounds.height_mm = glm::dvec2(1300, 1500);
    const MoveSearch found = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    ASSERT_EQ(found.better.size(), 1u);
    EXPECT_LT(found.better[0].how.height_mm, 1500 - kHeight_mm / 2);
    EXPECT_GE(found.better[0].how.height_mm, 1500 - kHeight_mm / 2 - 26);  // not a step more than needed
}

// A track along the ceiling line y = 1500: the image leaves the panel's side when the lamp is so far aside
// that x * d1 / (d1 + d2) passes half its width.
TEST(WhatToMove, MovesALampAlongItsTrack) {
    const Layout layout = room();
    MoveBounds bounds;
    bounds.lamps.push_back({"bulb", {0, 1500, 3000}, {1000, 1500, 3000}});
    bounds.keep = KeptLight{{0, 1e9}, 0};
    const MoveSearch found = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    ASSERT_EQ(found.better.size(), 1u);
    const double d1 = kEye_mm.z - panel_frame(layout.panel).origin_mm.z,
                 d2 = 3000 - panel_frame(layout.panel).origin_mm.z;
    const double least = (kWidth_mm / 2) * (d1 + d2) / d1;
    EXPECT_GE(found.better[0].how.lamps[0].at_mm.x, least);
    EXPECT_LE(found.better[0].how.lamps[0].at_mm.x, least + 150);
    EXPECT_EQ(found.better[0].how.lamps[0].at_mm.z, 3000);
}

TEST(WhatToMove, KeepsTheLightThatIsWanted) {
    const Layout layout = room();
    MoveBounds bounds;
    bounds.lean_deg = glm::dvec2(0, 8);
    bounds.lamps.push_back({"bulb", {0, 1500, 2500}, {1200, 1500, 3500}});
    const MoveSearch free = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    bounds.keep = KeptLight{{free.present.lux * 0.98, free.present.lux * 1.02}, 0.5};
    const MoveSearch kept = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    EXPECT_LT(kept.kept_light, kept.gone_through);
    for (const MoveChoice& choice : kept.better) {
        EXPECT_GE(choice.lux, bounds.keep->lux.x);
        EXPECT_LE(choice.lux, bounds.keep->lux.y);
        EXPECT_GE(choice.evenness, 0.5);
    }
    bounds.keep = KeptLight{{1e5, 2e5}, 0};
    const MoveSearch none = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    EXPECT_EQ(none.kept_light, 0u);
    EXPECT_TRUE(none.better.empty());
}

// 100 cd at 3 m less the hanging gear: the meter's mean is near I / d^2, and what comes by way of the room
// adds.
TEST(WhatToMove, ReckonsTheLight) {
    const Layout layout = room();
    const double far = (3000 - panel_frame(layout.panel).origin_mm.z - 20) / 1000;
    EXPECT_NEAR(direct_lux(layout), 100 / (far * far), 0.15);
    const MoveSearch found = what_to_move(layout, flat_mirror(), {kEye_mm}, {}, still(), 7);
    EXPECT_NEAR(found.present.lux, direct_lux(layout) + 7, 1e-9);
    EXPECT_TRUE(found.better.empty());
}

TEST(WhatToMove, PutsThingsWhereTheyShouldBe) {
    const Layout layout = room();
    MoveBounds bounds;
    bounds.lean_deg = glm::dvec2(0, 8);
    const MoveSearch found = what_to_move(layout, flat_mirror(), {kEye_mm}, bounds, still(), 0);
    const Layout then = arranged(layout, found.better.at(0).how);
    EXPECT_EQ(then.panel.lean_deg, found.better[0].how.lean_deg);
    EXPECT_GT(image_at_mm(then, then.panel.lean_deg).y, kHeight_mm);
}

// What a designer tries first, in the closed form of the search: a curtain lets so much of the light through,
// half a lamp is half its light, and a mirror off to the side, or on another wall, shows something else.
TEST(AlsoTried, WhatHelpsAloneIsToldBestFirst) {
    Layout layout = room();
    layout.room.width_mm = 4000;
    layout.room.depth_mm = 5000;
    layout.room.height_mm = 3000;
    layout.fields.resize(1);
    layout.fields[0].name = "all";
    const auto tried = also_tried(layout, flat_mirror(), {kEye_mm}, still(), 20);
    ASSERT_FALSE(tried.empty());
    EXPECT_TRUE(std::is_sorted(tried.begin(), tried.end(),
                               [](const TriedAlone& a, const TriedAlone& b) { return a.worst < b.worst; }));
    const auto says = [&](const std::string& part) {
        return std::any_of(tried.begin(), tried.end(),
                           [&](const TriedAlone& t) { return t.what.find(part) != std::string::npos; });
    };
    EXPECT_TRUE(says("to the left")) << "the bulb stands behind the eye: aside it is seen elsewhere";
    EXPECT_TRUE(says("the panel on the left wall"));
    for (const TriedAlone& t : tried)
        if (t.what == "bulb at half its light") {
            EXPECT_NEAR(t.lux, (direct_lux(layout) + 20) / 2, 1e-6);
        }
}

}  // namespace
}  // namespace rakelight
