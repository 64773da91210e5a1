// What the section says is held against the photograph: each thing that cannot be is named with its place.
#include "output/in_photograph/section.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "output/print/picture_writer.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"
#include "tests/support/run_program.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kPanel =
    "panel: {size: [300, 200]}\n"
    "fields: [{name: all, piece: 25, mix: slate}]\n"
    "room: {size: [4000, 4000, 2700], panel centre height: 1450}\n";
constexpr const char* kCorners = "corners: [[140, 95], [262, 100], [260, 196], [138, 190]]";

// A grey wall with a sheet of this value between those corners, 400 x 300 pixels.
void write_wall(const test::Folder& folder, float sheet, float left_half = -1) {
    Print print{400, 300, std::vector<float>(3 * 400 * 300, 0.5f)};
    for (int y = 95; y < 196; ++y)
        for (int x = 138; x < 262; ++x)
            for (int c = 0; c < 3; ++c)
                print.rgb[static_cast<std::size_t>(3 * (y * 400 + x) + c)] =
                    x < 200 && left_half >= 0 ? left_half : sheet;
    write_png(folder / "wall.png", print, {});
}

void write_mask(const test::Folder& folder, const char* name, int width, int height, float value) {
    write_png(folder / name,
              {width, height, std::vector<float>(static_cast<std::size_t>(3 * width * height), value)}, {});
}

std::string layout_of(const std::string& keys) {
    return fmt::format("{}in photographs:\n  foyer: {{picture: wall.png, {}}}\n", kPanel, keys);
}

std::vector<TakenPhotograph> taken_of(const test::Folder& folder, const std::string& keys) {
    return read_wall_photographs(read_layout_text(layout_of(keys), (folder / "slab.yaml").string()));
}

void expect_refusal(const test::Folder& folder, const std::string& keys, const std::string& key,
                    const std::string& words) {
    const std::string said = refusal_of([&] { taken_of(folder, keys); });
    EXPECT_TRUE(test::holds(said, "slab.yaml:5:")) << said;
    EXPECT_TRUE(test::holds(said, key + ": found")) << said;
    EXPECT_TRUE(test::holds(said, words)) << said;
    EXPECT_TRUE(test::holds(said, "expected")) << said;
}

std::string good(const std::string& more = "") {
    return fmt::format("sheet: A4 lying, {}, focal length: 28{}", kCorners, more);
}

}  // namespace

TEST(InPhotographs, OpensAGoodOne) {
    const test::Folder folder;
    write_wall(folder, 0.9f);
    const auto taken = taken_of(folder, good());
    ASSERT_EQ(taken.size(), 1u);
    EXPECT_EQ(taken[0].size_px, glm::ivec2(400, 300));
    EXPECT_NEAR(taken[0].focal_35mm, 28, 1e-9);
    EXPECT_GT(taken[0].eye_mm.z, 300);
    EXPECT_TRUE(taken[0].warnings.empty());
    EXPECT_NEAR(taken[0].seen_px({0, 1450, 0}).x, 200, 6);  // the panel's middle over the sheet's
}

TEST(InPhotographs, RefusesWhatCannotBe) {
    const test::Folder folder;
    write_wall(folder, 0.9f);
    const std::string size = "sheet: A4 lying, focal length: 28, ";
    expect_refusal(folder, size + "corners: [[140, 95], [260, 196], [262, 100], [138, 190]]", "foyer.corners",
                   "cross over");
    expect_refusal(folder, size + "corners: [[140, 95], [262, 100], [160, 120], [138, 190]]", "foyer.corners",
                   "bulges outwards");
    expect_refusal(folder, size + "corners: [[140, 95], [462, 100], [460, 196], [138, 190]]", "foyer.corners",
                   "within the 400 x 300 pixels");
    expect_refusal(folder, kCorners, "foyer.sheet", "found nothing");
    expect_refusal(folder, good(", light: twilight"), "foyer.light", "twilight");
    expect_refusal(folder, good(", panel centre: [2 m, 0]"), "foyer.panel centre",
                   "outside of the photograph");
    expect_refusal(folder, "sheet: A4 lying, focal length: 400, light: own light, " + std::string(kCorners),
                   "foyer.light", "outside of the layout's room");
    // The sheet is smaller than it is told: the camera would stand within the panel.
    expect_refusal(folder, "sheet: [24, 20], focal length: 12, " + std::string(kCorners),
                   "foyer.panel centre", "behind the camera");
    expect_refusal(folder, "sheet: A4 lying, corners: [[140, 100], [260, 100], [260, 190], [140, 190]]",
                   "foyer.focal length", "square on");
}

TEST(InPhotographs, RefusesMasksThatDoNotFit) {
    const test::Folder folder;
    write_wall(folder, 0.9f);
    expect_refusal(folder, good(", mask: front.png"), "foyer.mask", "found no file");
    write_mask(folder, "small.png", 200, 150, 0);
    expect_refusal(folder, good(", mask: small.png"), "foyer.mask", "200 x 150 pixels, expected 400 x 300");
    write_mask(folder, "all.png", 400, 300, 1);
    expect_refusal(folder, good(", mask: all.png"), "foyer.mask", "covers all of the panel");
    write_mask(folder, "none.png", 400, 300, 0);
    EXPECT_EQ(taken_of(folder, good(", mask: none.png")).size(), 1u);
}

TEST(InPhotographs, SaysWhatIsCutOff) {
    const test::Folder folder;
    write_wall(folder, 0.9f, 1.0f);
    const auto half = taken_of(folder, good());
    ASSERT_EQ(half.at(0).warnings.size(), 1u);
    EXPECT_TRUE(test::holds(half[0].warnings[0], "of the sheet are cut off at white"));
    write_wall(folder, 1.0f);
    expect_refusal(folder, good(), "foyer.exposure by", "white or black throughout");
    EXPECT_EQ(taken_of(folder, good(", exposure by: wall")).size(), 1u);
}

TEST(InPhotographs, TheProgramEndsWithTwo) {
    const test::Folder folder;
    folder.write("slab.yaml", layout_of(good(", samples: 2")));
    test::expect_refused(folder, "preview slab.yaml --picture foyer",
                         "found no file \"wall.png\", expected a photograph");
    test::expect_refused(folder, "check slab.yaml", "foyer.picture: found");
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    write_wall(folder, 0.9f);
    const test::Outcome made = test::run_in(folder, "preview slab.yaml --picture foyer --quiet");
    EXPECT_EQ(made.code, 0) << made.err;
    EXPECT_TRUE(std::filesystem::exists(folder / "renders/slab/foyer.png")) << made.out;
    EXPECT_TRUE(test::holds(test::bytes_of(folder / "renders/slab/foyer.png"),
                            "A photograph with a rendering set in"));
    const std::string before = test::bytes_of(folder / "renders/slab/foyer.png");
    const std::string again = "preview slab.yaml --picture foyer ";
    EXPECT_TRUE(test::holds(test::run_in(folder, again + "--skip-finished").err, "is finished"));
    EXPECT_EQ(test::run_in(folder, again + "--threads 1 --quiet").code, 0);
    EXPECT_EQ(test::bytes_of(folder / "renders/slab/foyer.png"), before) << "on another number of threads";
}

}  // namespace rakelight
