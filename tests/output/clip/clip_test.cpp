// Plans of clips: what moves, and that the rest stands still.
#include "output/clip/clip.h"

#include <gtest/gtest.h>

#include <cmath>

#include "output/clip/frames.h"
#include "output/clip/section.h"
#include "output/print/exposure.h"
#include "output/system/errors.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kRoom =
    "panel: {size: [400, 300]}\nfields: [{name: all, piece: 20, mix: slate}]\n"
    "room: {size: [4000, 5000, 2700], panel centre height: 1450}\n"
    "lamps:\n  - {name: spot, group: spots, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: "
    "30}\n"
    "  - {name: wash, at: [-500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}\n";

Clips clips_of(const std::string& section) {
    return read_clips(read_layout_text(kRoom + section, "t.yaml"));
}

std::string refused(const std::string& section) {
    return refusal_of([&] { clips_of(section); });
}

// Even steps from end to end, the panel's middle looked at, nothing else changed.
TEST(ClipWalk, GoesEvenlyFromOneEndToTheOther) {
    const Layout layout = read_layout_text(kRoom, "t.yaml");
    Clips clips;
    clips.walk = {-600, 900, 1500, 1550};
    clips.seconds = 1;
    const auto views = clip_viewpoints(ClipKind::walk_past, clips, layout);
    ASSERT_EQ(views.size(), 24u);
    for (std::size_t i = 0; i < views.size(); ++i) {
        EXPECT_NEAR(views[i].eye_mm.x, -600 + 1500.0 * static_cast<double>(i) / 23, 1e-9);
        EXPECT_EQ(views[i].eye_mm.y, 1550);
        EXPECT_EQ(views[i].eye_mm.z, 1500);
        EXPECT_EQ(views[i].look_at_mm, views[0].look_at_mm);
        EXPECT_EQ(views[i].view_width_mm, views[0].view_width_mm);
    }
    EXPECT_EQ(views[0].look_at_mm, glm::dvec3(0, 1450, 0));
    EXPECT_GE(views[0].view_width_mm * 9 / 16, 300);  // the panel's height is seen
}

// Every corner of panel and frame stands in every frame: projected by hand, as a camera at the eye looks at
// the middle.
TEST(ClipWalk, KeepsTheWholeWorkInView) {
    const Layout layout = read_layout_text(kRoom, "t.yaml");
    Clips clips;
    clips.walk = {-900, 900, 900, 1600};
    for (const Viewpoint& view : clip_viewpoints(ClipKind::walk_past, clips, layout)) {
        const glm::dvec3 to = view.look_at_mm - view.eye_mm, axis = glm::normalize(to);
        const glm::dvec3 right = glm::normalize(glm::cross(axis, glm::dvec3(0, 1, 0))),
                         up = glm::cross(right, axis);
        for (const double x : {-200.0, 200.0})
            for (const double y : {-150.0, 150.0}) {
                const glm::dvec3 p = glm::dvec3(x, 1450 + y, 0) - view.eye_mm;
                const double scale = glm::length(to) / glm::dot(p, axis);
                EXPECT_LT(std::abs(scale * glm::dot(p, right)), view.view_width_mm / 2);
                EXPECT_LT(std::abs(scale * glm::dot(p, up)), view.view_width_mm / 2 * 9 / 16);
            }
    }
}

TEST(ClipWalk, StaysWithinTheRoom) {
    const Layout layout = read_layout_text(kRoom, "t.yaml");
    Clips clips;
    clips.walk = {-1900, 1900, 4990, 1550};
    for (const Viewpoint& view : clip_viewpoints(ClipKind::walk_past, clips, layout)) {
        EXPECT_LE(std::abs(view.eye_mm.x), 1800);
        EXPECT_LE(view.eye_mm.z, 4800);
    }
}

// Closed form: the first lamp's setting is halfway at a quarter of the time, and a square law leaves a
// quarter of its light; the second has not begun.
TEST(ClipDimming, LampsGoDownOneAfterAnotherByASquareLaw) {
    const auto frames = dimmed_frames(5, 3, {2, 0}, 0);
    ASSERT_EQ(frames.size(), 5u);
    EXPECT_EQ(frames[0], (std::vector<double>{1, 1, 1}));
    EXPECT_NEAR(frames[1][2], 0.25, 1e-12);
    EXPECT_EQ(frames[1][0], 1);
    EXPECT_EQ(frames[2][2], 0);
    EXPECT_EQ(frames[2][0], 1);
    EXPECT_NEAR(frames[3][0], 0.25, 1e-12);
    EXPECT_EQ(frames[4], (std::vector<double>{0, 1, 0}));
    EXPECT_NEAR(dimmed_frames(3, 1, {0}, 0.36)[1][0], 0.64, 1e-12);  // halfway between settings 1 and 0.6
    EXPECT_NEAR(dimmed_frames(3, 1, {0}, 0.36)[2][0], 0.36, 1e-12);
}

// Light adds up: what is left is the sum of the groups as dimmed, and its error shrinks as the sum does.
TEST(ClipDimming, LightOfGroupsAddsUp) {
    Film film;
    film.width = film.height = 1;
    film.groups = {"spots", "wash"};
    film.xyz = {{{1, 2, 3}}, {{10, 20, 30}}};
    film.error = {2.2f};
    const double left[] = {1, 0.1};
    const Film less = dimmed(film, left);
    EXPECT_NEAR(total_xyz(less, 0).y, 4, 1e-5);
    EXPECT_NEAR(less.error[0], 0.4, 1e-5);
}

// An 18 % card in that light prints at 18 % (ISO 2720:1974, by way of exposure.h).
TEST(Clip, ExposureIsByAGreyCardInItsLight) {
    const glm::dvec3 light[] = {{95, 100, 108.9}, {95, 100, 108.9}};
    const Developing how = developing_of_clip(light, 0.1);
    EXPECT_NEAR(middle_luminance_cd_per_m2(how.ev100), 0.18 * 200 / 3.14159265, 1e-6);
    EXPECT_NEAR(how.light_white.x, 0.95, 1e-12);
    EXPECT_THROW(developing_of_clip({}, 0.1), RequestError);
}

// Two stops darker light is exposed one stop longer; night no more than three.
TEST(ClipDay, ExposureFollowsTheHourByHalf) {
    EXPECT_NEAR(eased_card_cd_per_m2(25, 100), 50, 1e-12);
    EXPECT_NEAR(eased_card_cd_per_m2(100, 100), 100, 1e-12);
    EXPECT_NEAR(eased_card_cd_per_m2(0, 100), 12.5, 1e-12);
}

TEST(ClipDay, HoursRunFromEndToEnd) {
    EXPECT_EQ(clip_hours(3, {9, 16}), (std::vector<double>{9, 12.5, 16}));
}

TEST(ClipSection, ReadsWhatItIsTold) {
    const Clips clips = clips_of(
        "clips: {seconds: 2.5, frames a second: 30, size: [640, 360], grain: 5 %, most samples: 9, walk "
        "past: {from: 10,"
        " to: -20, distance: 800, height: 1200}, dimmed: {lamps: [wash, spots], to: 20 %}, day: {from: 6, "
        "to: 20.5}}\n");
    EXPECT_EQ(frame_count(clips), 75);
    EXPECT_EQ(clips.size_px, glm::ivec2(640, 360));
    EXPECT_NEAR(clips.grain, 0.05, 1e-12);
    EXPECT_EQ(clips.walk.to_mm, -20);
    EXPECT_EQ(clips.dimming.lamps, (std::vector<std::string>{"wash", "spots"}));
    EXPECT_NEAR(clips.dimming.to, 0.2, 1e-12);
    EXPECT_EQ(clips.day.to_h, 20.5);
    EXPECT_EQ(frame_count(clips_of("")), 144);
}

TEST(ClipSection, SaysWhatIsWrongAndWhere) {
    EXPECT_NE(refused("clips: {size: [641, 360]}\n").find("clips.size: found [641, 360], expected two even"),
              std::string::npos);
    EXPECT_NE(refused("clips: {dimmed: {lamps: [wahs]}}\n").find("did you mean wash?"), std::string::npos);
    EXPECT_NE(refused("clips: {viewpoint: strait}\n").find("clips.viewpoint: found"), std::string::npos);
    EXPECT_NE(refused("clips: {day: {from: 12, to: 9}}\n").find("expected an hour after 12 h"),
              std::string::npos);
    EXPECT_NE(refused("clips: {walk past: {from: 100, to: 100}}\n").find("expected another"),
              std::string::npos);
    EXPECT_NE(refused("clips: {walk past: {from: 9000}}\n").find("t.yaml:7:"), std::string::npos);
    EXPECT_NE(refused("clips: {second: 9}\n").find("did you mean seconds?"), std::string::npos);
}

TEST(ClipSection, ADayNeedsAWindowAndATime) {
    EXPECT_NE(why_no_clip(ClipKind::day, read_layout_text(kRoom, "t.yaml")).find("found no window"),
              std::string::npos);
    EXPECT_EQ(why_no_clip(ClipKind::walk_past, read_layout_text(kRoom, "t.yaml")), "");
}

TEST(FrameFolder, KeepsFramesOfOneHashAndForgetsAll) {
    const test::Folder folder;
    const FrameFolder old(folder.path(), "clip-day", 1), now(folder.path(), "clip-day", 2),
        other(folder.path(), "clip-day-two", 1);
    const Print print{2, 1, {0, 0.5f, 1, 2, -1, 0}};
    now.keep(0, print);
    EXPECT_TRUE(now.has(0));
    EXPECT_FALSE(now.has(1));
    EXPECT_FALSE(old.has(0));
    EXPECT_EQ(test::bytes_of(now.file(0)), std::string("P6 2 1 255\n\0\x80\xff\xff\0\0", 17));
    now.forget();
    EXPECT_FALSE(std::filesystem::exists(now.path()));
    EXPECT_FALSE(std::filesystem::exists(old.path()));
    EXPECT_TRUE(std::filesystem::exists(other.path()));
}

}  // namespace
}  // namespace rakelight
