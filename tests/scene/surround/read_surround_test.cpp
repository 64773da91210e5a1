// Files of light all round: what they say is light, and what is refused.
#include "scene/surround/read_surround.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include "materials/colour/colorimetry.h"
#include "scene/surround/file_light.h"
#include "tests/support/picture_maker.h"

using namespace rakelight;

namespace {

constexpr float kWide[8] = {0.708f, 0.292f, 0.17f, 0.797f, 0.131f, 0.046f, 0.3127f, 0.329f};  // ITU-R BT.2020

std::filesystem::path write_floats(const std::filesystem::path& path, int width, int height,
                                   const std::array<float, 3>& rgb, const OIIO::ParamValueList& more = {}) {
    OIIO::ImageSpec spec(width, height, 3, OIIO::TypeDesc::FLOAT);
    for (const auto& each : more) spec.extra_attribs.push_back(each);
    std::vector<float> all;
    for (int i = 0; i < width * height; ++i) all.insert(all.end(), rgb.begin(), rgb.end());
    const auto out = OIIO::ImageOutput::create(path.string());
    if (!out || !out->open(path.string(), spec) || !out->write_image(OIIO::TypeDesc::FLOAT, all.data()) ||
        !out->close())
        ADD_FAILURE() << path;
    return path;
}

std::string refusal(const std::filesystem::path& path) {
    try {
        read_surround_picture(path);
    } catch (const std::runtime_error& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST(ReadSurround, ExrIsTakenAsItIs) {
    const PictureMaker maker;
    const SurroundPicture p =
        read_surround_picture(write_floats(maker.folder() / "a.exr", 64, 32, {2, 1, 0.5f}));
    EXPECT_EQ(p.width_px, 64);
    EXPECT_FALSE(p.cut_off);
    EXPECT_FALSE(p.unit_cd_per_m2);
    EXPECT_EQ(p.rgb.at(77), glm::vec3(2, 1, 0.5f));
}

// OpenEXR's standard attributes; the same colour on other primaries has the same XYZ.
TEST(ReadSurround, ExrSaysItsPrimariesAndItsUnit) {
    const PictureMaker maker;
    OIIO::ParamValueList more;
    more.attribute("whiteLuminance", 120.0f);
    more.push_back(OIIO::ParamValue("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), 1, kWide));
    const SurroundPicture p =
        read_surround_picture(write_floats(maker.folder() / "a.exr", 64, 32, {0.6f, 0.5f, 0.4f}, more));
    ASSERT_TRUE(p.unit_cd_per_m2);
    EXPECT_NEAR(*p.unit_cd_per_m2, 120, 1e-3);
    // Y of BT.2020 (ITU-R BT.2020-2): 0.2627 R + 0.6780 G + 0.0593 B.
    EXPECT_NEAR(luminance_of(p.rgb[0]), 0.2627 * 0.6 + 0.6780 * 0.5 + 0.0593 * 0.4, 1e-3);
    EXPECT_GT(p.rgb[0].x, 0.6f);  // sRGB's red is less far out
    const glm::dmat3 same = to_srgb_primaries({0.64, 0.33, 0.30, 0.60, 0.15, 0.06, 0.3127, 0.3290});
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) EXPECT_NEAR(same[i][j], i == j ? 1 : 0, 1e-3);
}

TEST(ReadSurround, RadianceExposureIsUndone) {
    const PictureMaker maker;
    const auto path = write_floats(maker.folder() / "a.hdr", 64, 32, {4, 2, 1});
    EXPECT_NEAR(double(read_surround_picture(path).rgb[0].y), 2, 0.02);
    const RadianceHeader header = read_radiance_header(
        "#?RADIANCE\nFORMAT=32-bit_rle_rgbe\nEXPOSURE=2\nEXPOSURE= 4.0\nCOLORCORR=1 2 1\n\n-Y 32 +X 64\n");
    EXPECT_NEAR(header.factor.x, 1.0 / 8, 1e-12);
    EXPECT_NEAR(header.factor.y, 1.0 / 16, 1e-12);
    EXPECT_THROW(read_radiance_header("#?RADIANCE\nFORMAT=32-bit_rle_xyze\n\n"), std::runtime_error);
    EXPECT_THROW(read_radiance_header("#?RADIANCE\nPRIMARIES=0.6 0.3 0.3\n\n"), std::runtime_error);
    EXPECT_THROW(read_radiance_header("#?RADIANCE\nEXPOSURE=0\n\n"), std::runtime_error);
}

TEST(ReadSurround, WholeNumbersAreCutOff) {
    const PictureMaker maker;
    const auto path = maker.write("a.png", 64, 32, 3, [](int, int) {
        return PictureMaker::Pixel{188, 188, 188};
    });
    const SurroundPicture p = read_surround_picture(path);
    EXPECT_TRUE(p.cut_off);
    EXPECT_NEAR(double(p.rgb[0].x), 0.5029, 1e-3);  // IEC 61966-2-1
}

TEST(ReadSurround, LargePicturesAreShrunkWithTheirLight) {
    const PictureMaker maker;
    const SurroundPicture p =
        read_surround_picture(write_floats(maker.folder() / "a.exr", 4200, 2100, {3, 3, 3}));
    EXPECT_EQ(p.width_px, 2100);
    EXPECT_EQ(p.height_px, 1050);
    for (const glm::vec3& rgb : p.rgb) ASSERT_NEAR(rgb.y, 3, 1e-4);
}

TEST(ReadSurround, RefusesWhatIsNoPictureAllRound) {
    const PictureMaker maker;
    EXPECT_NE(refusal(maker.folder() / "none.exr").find("found no file"), std::string::npos);
    EXPECT_NE(refusal(write_floats(maker.folder() / "a.exr", 60, 40, {1, 1, 1}))
                  .find("60 x 40 pixels, expected twice"),
              std::string::npos);
    EXPECT_NE(refusal(write_floats(maker.folder() / "b.exr", 64, 32, {0, 0, 0})).find("black picture"),
              std::string::npos);
    EXPECT_NE(refusal(write_floats(maker.folder() / "c.exr", 64, 32, {1, NAN, 1})).find("without a number"),
              std::string::npos);
    std::ofstream(maker.folder() / "d.exr") << "no picture";
    EXPECT_NE(refusal(maker.folder() / "d.exr").find("no picture or a broken one"), std::string::npos);
    const auto whole = write_floats(maker.folder() / "e.exr", 256, 128, {1, 2, 3});
    std::filesystem::resize_file(whole, std::filesystem::file_size(whole) / 2);
    EXPECT_NE(refusal(whole), "");
}

TEST(ReadSurround, IsReadOnceWhileItIsHeld) {
    const PictureMaker maker;
    const auto path = write_floats(maker.folder() / "a.exr", 64, 32, {1, 1, 1});
    const auto first = read_all_round_picture(path);
    EXPECT_EQ(first, read_all_round_picture(path));
}
