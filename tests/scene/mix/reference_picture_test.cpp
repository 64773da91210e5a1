#include "scene/mix/reference_picture.h"

#include <gtest/gtest.h>

#include <fstream>

#include "tests/support/picture_maker.h"

namespace rakelight {
namespace {

using Pixel = PictureMaker::Pixel;

// IEC 61966-2-1: 188 of 255 is 0.5029 in linear light, not 0.737: a mean of black and white is half of the
// light.
TEST(ReferencePicture, MeansAreTakenInLinearLight) {
    const PictureMaker maker;
    const auto path = maker.write("stripes.png", 40, 20, 3, [](int x, int) {
        return x % 2 ? Pixel{255, 255, 255} : Pixel{0, 0, 0};
    });
    const ReferencePicture picture = read_reference_picture(path);
    EXPECT_DOUBLE_EQ(picture.height_per_width(), 0.5);
    const MeanColour mean = mean_under(picture, {0, 0}, 400, {{100, 40}, {300, 40}, {300, 160}, {100, 160}});
    EXPECT_NEAR(mean.cover, 1, 1e-6);
    EXPECT_NEAR(mean.colour.r, 0.5, 1e-6);
    const auto grey =
        read_reference_picture(maker.write("grey.png", 4, 4, 1, [](int, int) { return Pixel{188}; }));
    EXPECT_NEAR(mean_under(grey, {0, 0}, 4, {{1, 1}, {3, 1}, {2, 3}}).colour.b, 0.50289, 1e-4);
}

// Red as a plane of x (one pixel a millimetre, value by column): the mean over any outline is the weighted
// sum of exact column areas, here of a triangle: column k of the right triangle (0,0), (10,0), (10,10) has
// the area k + 1/2.
TEST(ReferencePicture, EachPixelByTheExactAreaInside) {
    const PictureMaker maker;
    const auto path = maker.write("ramp.png", 10, 10, 3, [](int x, int) {
        return Pixel{static_cast<std::uint8_t>(25 * x), 0, 255};
    });
    const ReferencePicture picture = read_reference_picture(path);
    double wanted = 0;
    for (int k = 0; k < 10; ++k) wanted += (k + 0.5) / 50 * decode({25 * k / 255.0, 0, 0}).r;
    const MeanColour mean = mean_under(picture, {3, 7}, 10, {{3, 7}, {13, 7}, {13, 17}});
    EXPECT_NEAR(mean.cover, 1, 1e-6);
    EXPECT_NEAR(mean.colour.r, wanted, 1e-5);
    EXPECT_NEAR(mean.colour.b, 1, 1e-6);
    // An outline within a single pixel has that pixel's colour.
    EXPECT_NEAR(mean_under(picture, {0, 0}, 10, {{4.2, 4.2}, {4.6, 4.3}, {4.4, 4.7}}).colour.r,
                decode({100 / 255.0, 0, 0}).r, 1e-5);
    // A notch is no hindrance: the arrow (0,0), (4,2), (0,4), (2,2) is x high up to 2, then 4 - x.
    const double column[4] = {0.5, 1.5, 1.5, 0.5};
    double arrow = 0;
    for (int k = 0; k < 4; ++k) arrow += column[k] / 4 * decode({25 * k / 255.0, 0, 0}).r;
    EXPECT_NEAR(mean_under(picture, {0, 0}, 10, {{0, 0}, {4, 2}, {0, 4}, {2, 2}}).colour.r, arrow, 1e-5);
}

// Exif 2.3, tag Orientation: 6 = the file's first row is the picture's right side, its first column the top.
TEST(ReferencePicture, APhoneHeldUprightIsTurned) {
    const test::Folder folder;
    const auto path = folder / "turned.jpg";
    OIIO::ImageSpec spec(32, 16, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("Orientation", 6);
    spec.attribute("Compression", "jpeg:100");
    std::vector<std::uint8_t> bytes;
    for (int y = 0; y < 16; ++y)
        for (int x = 0; x < 32; ++x) bytes.insert(bytes.end(), 3, x < 16 ? 255 : 0);
    const auto out = OIIO::ImageOutput::create(path.string());
    ASSERT_TRUE(out && out->open(path.string(), spec) &&
                out->write_image(OIIO::TypeDesc::UINT8, bytes.data()) && out->close());
    const ReferencePicture picture = read_reference_picture(path);
    EXPECT_EQ(picture.width_px, 16);
    EXPECT_EQ(picture.height_px, 32);
    EXPECT_NEAR(mean_within(picture, {{0, 0}, {16, 16}}).colour.g, 1, 0.01);
    EXPECT_NEAR(mean_within(picture, {{0, 16}, {16, 16}}).colour.g, 0, 0.01);
}

// A picture that is averaged down keeps the pixels of its file as the measure of a rectangle.
TEST(ReferencePicture, RectanglesCountInPixelsOfTheFile) {
    const PictureMaker maker;
    const auto path = maker.write("long.png", 5001, 3, 1, [](int x, int) {
        return Pixel{static_cast<std::uint8_t>(x < 4000 ? 255 : 0)};
    });
    const ReferencePicture picture = read_reference_picture(path);
    EXPECT_EQ(picture.shrink, 3);
    EXPECT_NEAR(mean_within(picture, {{3990, 0}, {9, 3}}).colour.r, 1, 1e-6);
    EXPECT_NEAR(mean_within(picture, {{4002, 0}, {999, 3}}).colour.r, 0, 1e-6);
    EXPECT_NEAR(mean_within(picture, {{3000, 0}, {2001, 3}}).colour.r, 1000.0 / 2001, 1e-3);
}

TEST(ReferencePicture, ClearPartsDoNotCount) {
    const PictureMaker maker;
    const auto path = maker.write("half.png", 20, 10, 4, [](int x, int) {
        return x < 10 ? Pixel{255, 0, 0, 255} : Pixel{0, 255, 0, 51};
    });
    const ReferencePicture picture = read_reference_picture(path);
    const MeanColour clear = mean_under(picture, {0, 0}, 20, {{12, 2}, {18, 2}, {18, 8}, {12, 8}});
    EXPECT_NEAR(clear.cover, 0.2, 1e-6);
    EXPECT_NEAR(clear.colour.g, 1, 1e-5);  // its colour is not darkened by its alpha
    const MeanColour both = mean_under(picture, {0, 0}, 20, {{8, 2}, {12, 2}, {12, 8}, {8, 8}});
    EXPECT_NEAR(both.cover, 0.6, 1e-6);
    EXPECT_NEAR(both.colour.r, 1 / 1.2, 1e-5);
    // A quarter on the picture, the rest beyond its corner.
    EXPECT_NEAR(mean_under(picture, {0, 0}, 20, {{-2, -2}, {2, -2}, {2, 2}, {-2, 2}}).cover, 0.25, 1e-6);
    EXPECT_EQ(mean_under(picture, {0, 0}, 20, {{30, 30}, {34, 30}, {32, 33}}).cover, 0);
}

// Wider than is kept: averaged down, its edge where it was.
TEST(ReferencePicture, LargeOnesAreAveragedDown) {
    const PictureMaker maker;
    const auto path = maker.write("wide.png", 5001, 3, 3, [](int x, int) {
        return x < 2500 ? Pixel{255, 255, 255} : Pixel{0, 0, 0};
    });
    const ReferencePicture picture = read_reference_picture(path);
    EXPECT_EQ(picture.width_px, 1667);
    const MeanColour mean = mean_under(picture, {0, 0}, 5001, {{0, 0}, {5001, 0}, {5001, 3}, {0, 3}});
    EXPECT_NEAR(mean.colour.g, 2500.0 / 5001, 1e-5);
}

TEST(ReferencePicture, RefusesWhatItCannotUse) {
    const PictureMaker maker;
    const auto why = [](const std::filesystem::path& path) -> std::string {
        try {
            read_reference_picture(path);
        } catch (const std::runtime_error& error) {
            return error.what();
        }
        return "";
    };
    EXPECT_NE(why(maker.folder() / "none.png").find("found no file"), std::string::npos);
    std::ofstream(maker.folder() / "words.png") << "not a picture";
    EXPECT_NE(why(maker.folder() / "words.png").find("no picture or a broken one"), std::string::npos);
    // A header that promises 30,000 by 30,000 pixels: refused before any is read.
    std::string png("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x75\x30\0\0\x75\x30\x08\x02\0\0\0", 29);
    std::uint32_t crc = ~0u;  // ISO/IEC 15948, annex D
    for (std::size_t i = 12; i < png.size(); ++i) {
        crc ^= static_cast<std::uint8_t>(png[i]);
        for (int k = 0; k < 8; ++k) crc = crc & 1 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
    }
    for (int shift = 24; shift >= 0; shift -= 8) png += static_cast<char>(~crc >> shift & 0xff);
    png += std::string("\0\0\0\0IDAT\x35\xaf\x06\x1e", 12);
    std::ofstream(maker.folder() / "huge.png", std::ios::binary) << png;
    EXPECT_NE(why(maker.folder() / "huge.png").find("30000 x 30000 pixels"), std::string::npos)
        << why(maker.folder() / "huge.png");
    // Cut off in the middle.
    const auto whole = maker.write("whole.png", 300, 300, 3, [](int x, int y) {
        return Pixel{static_cast<std::uint8_t>(x * y), static_cast<std::uint8_t>(x ^ y), 7};
    });
    std::filesystem::resize_file(whole, std::filesystem::file_size(whole) / 2);
    EXPECT_NE(why(whole), "");
}

}  // namespace
}  // namespace rakelight
