// Pictures are opened by what their first bytes say.
#include "scene/picture_file/open_picture.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "scene/picture_file/picture_kind.h"
#include "scene/picture_file/whole_picture.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using namespace std::string_view_literals;

std::filesystem::path written(const test::Folder& folder, const std::string& name, OIIO::TypeDesc type,
                              int orientation = 1) {
    const std::filesystem::path path = folder / name;
    OIIO::ImageSpec spec(4, 2, 3, type);
    spec.attribute("Orientation", orientation);
    std::vector<float> pixels(24, 0.25f);
    pixels[0] = 1;  // red, upper left
    const auto out = OIIO::ImageOutput::create(name);
    EXPECT_TRUE(out && out->open(path.string(), spec) &&
                out->write_image(OIIO::TypeDesc::FLOAT, pixels.data()) && out->close());
    return path;
}

std::string refusal(const auto& work) {
    try {
        work();
    } catch (const std::runtime_error& e) {
        return e.what();
    }
    return {};
}

TEST(OpenPicture, KindsByTheirFirstBytes) {
    const test::Folder folder;
    for (const auto& [name, kind] : std::vector<std::pair<std::string, std::string>>{
             {"a.png", "png"}, {"a.jpg", "jpeg"}, {"a.tif", "tiff"}, {"a.exr", "openexr"}, {"a.hdr", "hdr"}})
        EXPECT_EQ(picture_kind(written(
                      folder, name,
                      kind == "openexr" || kind == "hdr" ? OIIO::TypeDesc::FLOAT : OIIO::TypeDesc::UINT8)),
                  kind);
    EXPECT_EQ(picture_kind("II*\0"sv, ".NEF"), "raw");
    EXPECT_EQ(picture_kind("\0\0\0\x18"
                           "ftypheic"sv,
                           ".jpg"),
              "heif");
    EXPECT_EQ(picture_kind("panel: {size: [120, 80]}", ".png"), "");
    EXPECT_EQ(picture_kind("", ".png"), "");
}

TEST(OpenPicture, AWrongEndingIsNoMatter) {
    const test::Folder folder;
    const auto path = written(folder, "a.png", OIIO::TypeDesc::UINT8);
    const auto as = path.parent_path() / "a.exr";
    std::filesystem::rename(path, as);
    EXPECT_STREQ(open_picture(as, "a PNG", {"png"})->format_name(), "png");
}

TEST(OpenPicture, RefusesWithReasons) {
    const test::Folder folder;
    const auto png = written(folder, "a.png", OIIO::TypeDesc::UINT8);
    EXPECT_EQ(refusal([&] { open_picture(png, "an EXR", {"openexr"}); }),
              "found a picture of the kind png, expected an EXR");
    EXPECT_EQ(refusal([&] { check_size(*open_picture(png, "a PNG"), 3, 1'000'000); }),
              "found 4 x 2 pixels, expected at least 3 x 3 and at most 1 million");
    EXPECT_NE(refusal([&] { open_picture(png.parent_path() / "none.png", "a PNG"); }).find("no file"),
              std::string::npos);
    // Cut within the head, and within the pixels.
    std::filesystem::resize_file(png, 20);
    EXPECT_EQ(refusal([&] { open_picture(png, "a PNG"); }),
              "found a file that is no picture or a broken one, expected a PNG");
    const auto jpeg = written(folder, "a.jpg", OIIO::TypeDesc::UINT8);
    std::ofstream(jpeg) << "never a picture";
    EXPECT_EQ(refusal([&] { open_picture(jpeg, "a JPEG"); }),
              "found a file that is no picture or a broken one, expected a JPEG");
    const auto tiff = written(folder, "a.tif", OIIO::TypeDesc::UINT16);
    std::filesystem::resize_file(tiff, std::filesystem::file_size(tiff) / 2);
    EXPECT_NE(refusal([&] { whole_picture(*open_picture(tiff, "a TIFF"), OIIO::TypeUnknown); }), "");
}

// JEITA CP-3451, tag 274: with 6 the first row of the file is the right side of the picture, top first.
TEST(OpenPicture, IsTurnedUpright) {
    const test::Folder folder;
    const auto path = written(folder, "a.tif", OIIO::TypeDesc::UINT8, 6);
    const OIIO::ImageBuf picture = whole_picture(*open_picture(path, "a TIFF"), OIIO::TypeDesc::FLOAT);
    ASSERT_EQ(picture.spec().width, 2);
    ASSERT_EQ(picture.spec().height, 4);
    EXPECT_FLOAT_EQ(picture.getchannel(1, 0, 0, 0), 1);
    EXPECT_NEAR(picture.getchannel(0, 3, 0, 0), 0.25, 0.01);
}

}  // namespace
}  // namespace rakelight
