// The camera by the printed sheet of marks: found by OpenCV in a made photograph with grain and a shadow.
#include <gtest/gtest.h>

#include <cmath>

#include "output/in_photograph/section.h"
#include "output/marks/mark_sheet.h"
#include "output/system/part_program.h"
#include "output/system/safe_file.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/photographed_sheet.h"
#include "tests/support/photographed_wall.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kLayout =
    "panel: {size: [300, 200]}\n"
    "fields: [{name: all, piece: 25, mix: slate}]\n"
    "in photographs:\n"
    "  foyer: {picture: wall.ppm, focal length: 28}\n";

// From millimetres off the page's upper left corner, y down, to pixels.
glm::dmat3 page_to_px(const test::HiddenCamera& camera, const glm::dvec2& page_mm) {
    const SheetPose& pose = camera.pose;
    const glm::dvec2 middle = glm::dvec2(camera.size_px) / 2.0;
    const auto column = [&](const glm::dvec3& v) {
        const double z = glm::dot(v, pose.forward);
        return glm::dvec3(pose.focal_px * glm::dot(v, pose.right) + middle.x * z,
                          pose.focal_px * glm::dot(v, pose.down) + middle.y * z, z);
    };
    const glm::dvec3 corner(-page_mm.x / 2, page_mm.y / 2, 0);
    return {column({1, 0, 0}), column({0, -1, 0}), column(corner - pose.eye_mm)};
}

glm::dvec3 page_reflects(const MarkSheet& sheet, const glm::dvec2& mm) {
    if (mm.x < 0 || mm.y < 0 || mm.x > sheet.paper.size_mm.x || mm.y > sheet.paper.size_mm.y)
        return glm::dvec3(0.35, 0.33, 0.3);
    for (const PlacedMark& mark : sheet.marks) {
        const glm::ivec2 s(glm::floor((mm - mark.at_mm) / (mark.size_mm / 7)));
        if (s.x < 0 || s.y < 0 || s.x > 6 || s.y > 6) continue;
        const bool border = s.x < 1 || s.y < 1 || s.x > 5 || s.y > 5;
        return glm::dvec3(!border && white_square(mark.number, s.x - 1, s.y - 1) ? 0.85 : 0.04);
    }
    return glm::dvec3(0.85);
}

}  // namespace

// The project's own bounds: 0.2 degrees and 0.5 % of the distance.
TEST(MarksInPhotograph, GiveTheCamera) {
    if (!find_part("find-marks")) GTEST_SKIP() << "libopencv-contrib-dev was not there";
    const test::Folder folder;
    const MarkSheet& sheet = mark_sheets()[0];
    const test::HiddenCamera camera = test::hidden_camera({620, 60, 1100}, 28, {2400, 1800});
    test::SheetShot shot;
    shot.size_px = camera.size_px;
    shot.shadow = 0.2;
    const BytePicture picture =
        test::photographed(shot, page_to_px(camera, sheet.paper.size_mm),
                           [&](const glm::dvec2& mm) { return page_reflects(sheet, mm); });
    folder.write("wall.ppm", ppm_of(picture));
    const auto taken = read_wall_photographs(read_layout_text(kLayout, (folder / "slab.yaml").string()));
    ASSERT_EQ(taken.size(), 1u);
    EXPECT_TRUE(taken[0].by_marks);
    const SheetPose& found = taken[0].pose;
    EXPECT_NEAR(glm::length(found.eye_mm) / glm::length(camera.pose.eye_mm), 1, 0.005);
    EXPECT_GT(glm::dot(found.forward, camera.pose.forward), std::cos(glm::radians(0.2)));
    EXPECT_GT(glm::dot(found.right, camera.pose.right), std::cos(glm::radians(0.2)));
    EXPECT_GT(glm::dot(glm::normalize(found.eye_mm), glm::normalize(camera.pose.eye_mm)),
              std::cos(glm::radians(0.2)));
}

}  // namespace rakelight
