// The panel set into a rendered photograph of its wall against the same wall rendered whole, from cameras and
// under light that the program is not told but by the photograph.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "materials/colour/ciede2000.h"
#include "output/in_photograph/make.h"
#include "output/in_photograph/section.h"
#include "output/print/picture_writer.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/hung_panel.h"
#include "tests/support/photographed_wall.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using test::HiddenCamera;

constexpr const char* kLayout =
    "panel: {name: Slab, size: [320, 220], frame: {material: oak, width: 12}}\n"
    "fields: [{name: all, opus: regulatum, piece: 27, joint: 1.5, mix: {slate: 50 %, aqua: 30 %, "
    "foam-white: 20 %}, grout: pale-grey}]\n"
    "room: {size: [4000, 4000, 2700], panel centre height: 1450, panel wall: warm-grey}\n"
    "lamps:\n"
    "  - {name: spot, at: [-500, 2600, 700], aim: [0, 1450, 0], lumen: 700, beam angle: 50}\n"
    "  - {name: wash, at: [900, 2600, 1800], aim: [0, 1450, 0], lumen: 500, beam angle: 60}\n";
const glm::dvec2 kA4_mm(297, 210);
const glm::dvec3 kSheetInRoom_mm(0, 1450, 0);

std::string in_photographs(const HiddenCamera& camera, const std::string& more) {
    const double x = kA4_mm.x / 2, y = kA4_mm.y / 2;
    std::string corners;
    for (const glm::dvec3& corner : {glm::dvec3(-x, y, 0), {x, y, 0}, {x, -y, 0}, {-x, -y, 0}}) {
        const glm::dvec2 at = camera.seen(corner);
        corners += fmt::format("[{:.6f}, {:.6f}], ", at.x, at.y);
    }
    return fmt::format(
        "{}in photographs:\n  foyer: {{picture: wall.png, sheet: A4 lying, samples: 64, {}, corners: "
        "[{}]}}\n",
        kLayout, more, corners);
}

Lab lab_of(const Print& print, std::size_t pixel) {
    const float* p = &print.rgb[3 * pixel];
    const LinearRgb rgb = decode({p[0], p[1], p[2]});
    return xyz_to_lab(linear_rgb_to_xyz(rgb), linear_rgb_to_xyz({1, 1, 1}));
}

// Whether the pixel is within the panel and its frame as seen, `px` pixels inside of the outline; below 0
// outside.
bool on_panel(const HiddenCamera& camera, const Layout& layout, const glm::dvec2& at, double px) {
    const HungPanel hung = hung_panels(layout).front();
    const glm::dvec2 half = hung.half_mm + rim_mm(layout.panel);
    std::array<glm::dvec2, 4> c;
    const std::array<glm::dvec2, 4> sides{{{-1, 1}, {1, 1}, {1, -1}, {-1, -1}}};
    for (std::size_t i = 0; i < 4; ++i)
        c[i] = camera.seen(hung.centre_mm + glm::dvec3(half * sides[i], 12) - kSheetInRoom_mm);
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 along = glm::normalize(c[(i + 1) % 4] - c[i]), to = at - c[i];
        if (along.x * to.y - along.y * to.x < px) return false;
    }
    return true;
}

struct Differences {
    double panel = 0, shadow = 0, elsewhere = 0;  // mean CIEDE2000
    int shadow_px = 0;
};

Differences compared(const Print& made, const Print& truth, const Print& bare, const HiddenCamera& camera,
                     const Layout& layout) {
    Differences d;
    int panel_px = 0, other_px = 0;
    for (int y = 0; y < made.height; ++y)
        for (int x = 0; x < made.width; ++x) {
            const std::size_t i = static_cast<std::size_t>(y) * made.width + x;
            const double off = ciede2000(lab_of(made, i), lab_of(truth, i));
            const glm::dvec2 at(x + 0.5, y + 0.5);
            if (on_panel(camera, layout, at, 2)) {
                d.panel += off, ++panel_px;
            } else if (!on_panel(camera, layout, at, -12)) {
                const bool shaded = ciede2000(lab_of(bare, i), lab_of(truth, i)) > 4;
                (shaded ? d.shadow : d.elsewhere) += off;
                ++(shaded ? d.shadow_px : other_px);
            }
        }
    d.panel /= panel_px, d.shadow /= std::max(1, d.shadow_px), d.elsewhere /= other_px;
    return d;
}

}  // namespace

TEST(InPhotograph, LooksAsTheRoomRenderedWhole) {
    const test::Folder folder;
    const HiddenCamera camera = test::hidden_camera({520, 90, 1100}, 34, {320, 240});
    const std::string text = in_photographs(camera, "light: own light");
    const Layout layout = read_layout_text(text, (folder.path() / "slab.yaml").string());
    const auto photographed = test::seen_by(test::wall_with_sheet(layout, kSheetInRoom_mm, kA4_mm, 0.85f),
                                            layout, camera, kSheetInRoom_mm, 128, 5);
    // White-balanced on the sheet, which is exposed to four fifths.
    const glm::dvec3 sheet = photographed[static_cast<std::size_t>(camera.seen({0, 0, 0}).y) * 320 +
                                          static_cast<std::size_t>(camera.seen({0, 0, 0}).x)];
    const glm::dvec3 white = sheet / 0.7;
    write_png(folder.path() / "wall.png", test::photograph_of(photographed, camera.size_px, white), {});

    const std::vector<TakenPhotograph> taken = read_wall_photographs(layout);
    ASSERT_EQ(taken.size(), 1u);
    const SheetPose& found = taken[0].pose;
    EXPECT_TRUE(taken[0].focal_found);
    EXPECT_NEAR(found.focal_px / camera.pose.focal_px, 1, 0.01);
    EXPECT_NEAR(glm::length(found.eye_mm) / glm::length(camera.pose.eye_mm), 1, 0.005);
    EXPECT_GT(glm::dot(found.forward, camera.pose.forward), std::cos(glm::radians(0.2)));
    EXPECT_GT(glm::dot(found.right, camera.pose.right), std::cos(glm::radians(0.2)));
    const Laying laying = lay(layout);
    const PrintInPhotograph made = panel_in_photograph(taken[0], layout, laying, nullptr, {});

    const Print truth = test::photograph_of(
        test::seen_by(build_world(layout, laying), layout, camera, kSheetInRoom_mm, 160, 9), camera.size_px,
        white);
    const Print bare =
        test::photograph_of(test::seen_by(build_bare_wall(layout), layout, camera, kSheetInRoom_mm, 64, 9),
                            camera.size_px, white);
    const Differences d = compared(made.print, truth, bare, camera, layout);
    RecordProperty("panel", fmt::format("{:.2f}", d.panel));
    RecordProperty("shadow", fmt::format("{:.2f}", d.shadow));
    EXPECT_GT(d.shadow_px, 200);
    EXPECT_LT(d.panel, 1.5);
    EXPECT_LT(d.shadow, 2);
    EXPECT_LT(d.elsewhere, 1);
}

}  // namespace rakelight
