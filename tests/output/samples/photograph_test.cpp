// Pictures as cameras leave them: turned by a note in the file, linear or not, or no photographs at all.
#include "output/samples/photograph.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

/// 40 by 20 pixels, red grows to the right, green downwards.
void write(const std::filesystem::path& path, OIIO::TypeDesc type, int orientation, int channels = 3) {
    OIIO::ImageSpec spec(40, 20, channels, type);
    spec.attribute("Orientation", orientation);
    std::vector<float> values;
    for (int y = 0; y < 20; ++y)
        for (int x = 0; x < 40; ++x)
            for (int c = 0; c < channels; ++c)
                values.push_back(c == 0   ? static_cast<float>(x) / 255
                                 : c == 1 ? static_cast<float>(y) / 255
                                          : 0);
    const auto out = OIIO::ImageOutput::create(path.string());
    ASSERT_TRUE(out && out->open(path.string(), spec) &&
                out->write_image(OIIO::TypeDesc::FLOAT, values.data()) && out->close());
}

// Exif 2.32, Orientation 6: row 0 is the right-hand side as one looks at it, column 0 the top.
TEST(Photograph, IsTurnedUpright) {
    const test::Folder folder;
    write(folder / "turned.tif", OIIO::TypeDesc::UINT8, 6);
    const Photograph picture(folder / "turned.tif");
    EXPECT_EQ(picture.size_px(), glm::ivec2(20, 40));
    const auto corner = picture.pixel({19, 0}), below = picture.pixel({19, 30}), left = picture.pixel({0, 0});
    EXPECT_NEAR(255 * corner[0], 0, 0.1);
    EXPECT_NEAR(255 * corner[1], 0, 0.1);
    EXPECT_NEAR(255 * below[0], 30, 0.1);
    EXPECT_NEAR(255 * left[1], 19, 0.1);
}

TEST(Photograph, KnowsWhatIsLinear) {
    const test::Folder folder;
    write(folder / "a.exr", OIIO::TypeDesc::FLOAT, 1);
    write(folder / "a.png", OIIO::TypeDesc::UINT8, 1);
    EXPECT_TRUE(Photograph(folder / "a.exr").linear());
    EXPECT_FALSE(Photograph(folder / "a.png").linear());
    EXPECT_NEAR(255 * Photograph(folder / "a.exr").pixel({7, 3})[0], 7, 0.1);
}

TEST(Photograph, RefusesWhatIsNone) {
    const test::Folder folder;
    write(folder / "grey.png", OIIO::TypeDesc::UINT8, 1, 1);
    folder.write("text.jpg", "no picture");
    for (const char* name : {"grey.png", "text.jpg", "none.png"})
        EXPECT_THROW(Photograph(folder / name), std::runtime_error) << name;
}

}  // namespace
}  // namespace rakelight
