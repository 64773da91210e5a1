// Written files are read back by OpenImageIO; byte values by rounding 255 v (IEC 61966-2-1, 8-bit encoding).
#include "output/print/picture_writer.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

const PictureText kText{{"Exposure", "EV 6.52 at ISO 100, by grey-card"},
                        {"Scene hash", "0123456789abcdef"},
                        {"Description", "rendering, not a photograph"},
                        {"Software", "rakelight 0.1.0"}};

Print ramp(int width, int height) {
    Print print{width, height, std::vector<float>(static_cast<std::size_t>(3 * width * height))};
    for (std::size_t i = 0; i < print.rgb.size(); ++i)
        print.rgb[i] = static_cast<float>(i) / static_cast<float>(print.rgb.size() - 1);
    return print;
}

TEST(PictureWriter, EightBitsRoundToNearestAndCarryTheText) {
    const test::Folder folder;
    const Print print = ramp(16, 16);  // 768 values: every byte three times
    write_png(folder / "a.png", print, kText);
    EXPECT_EQ(folder.entries(), 1u);
    const auto in = OIIO::ImageInput::open((folder / "a.png").string());
    ASSERT_TRUE(in);
    EXPECT_EQ(in->spec().width, 16);
    EXPECT_EQ(in->spec().height, 16);
    EXPECT_EQ(in->spec().nchannels, 3);
    EXPECT_EQ(in->spec().format, OIIO::TypeDesc::UINT8);
    EXPECT_EQ(in->spec().get_string_attribute("oiio:ColorSpace"), "sRGB");
    EXPECT_EQ(in->spec().get_string_attribute("Exposure"), "EV 6.52 at ISO 100, by grey-card");
    EXPECT_EQ(in->spec().get_string_attribute("Scene hash"), "0123456789abcdef");
    EXPECT_EQ(in->spec().get_string_attribute("ImageDescription"), "rendering, not a photograph");
    EXPECT_EQ(in->spec().get_string_attribute("Software"), "rakelight 0.1.0");
    EXPECT_EQ(in->spec().get_string_attribute("DateTime"), "");
    std::vector<std::uint8_t> bytes(768);
    ASSERT_TRUE(in->read_image(0, 0, 0, 3, OIIO::TypeDesc::UINT8, bytes.data()));
    for (std::size_t i = 0; i < bytes.size(); ++i)
        EXPECT_EQ(bytes[i], std::lround(255.0 * print.rgb[i])) << i;
}

TEST(PictureWriter, SixteenBits) {
    const test::Folder folder;
    const Print print = ramp(20, 10);
    write_png(folder / "a.png", print, {}, PrintDepth::bits16);
    const auto in = OIIO::ImageInput::open((folder / "a.png").string());
    ASSERT_TRUE(in);
    EXPECT_EQ(in->spec().format, OIIO::TypeDesc::UINT16);
    std::vector<std::uint16_t> values(600);
    ASSERT_TRUE(in->read_image(0, 0, 0, 3, OIIO::TypeDesc::UINT16, values.data()));
    for (std::size_t i = 0; i < values.size(); ++i)
        EXPECT_EQ(values[i], std::lround(65535.0 * print.rgb[i])) << i;
}

// PNG (ISO/IEC 15948): an sRGB chunk marks the colour space; a tIME chunk would break "same bytes".
TEST(PictureWriter, MarkedSrgbAndTheSameBytesEachTime) {
    const test::Folder folder;
    write_png(folder / "a.png", ramp(64, 9), kText);
    std::this_thread::sleep_for(std::chrono::milliseconds(1100));
    write_png(folder / "b.png", ramp(64, 9), kText);
    const std::string a = test::bytes_of(folder / "a.png");
    EXPECT_TRUE(a == test::bytes_of(folder / "b.png"));
    EXPECT_NE(a.find("sRGB"), std::string::npos);
    EXPECT_EQ(a.find("tIME"), std::string::npos);
    EXPECT_EQ(a.find(folder.path().string()), std::string::npos);
}

TEST(PictureWriter, FullDiskLeavesWhatWasThere) {
    const test::Folder folder;
    Print print = ramp(300, 300);
    write_png(folder / "a.png", ramp(4, 4), {});
    const std::string before = test::bytes_of(folder / "a.png");
    {
        const test::FullDisk full(1000);
        EXPECT_THROW(write_png(folder / "a.png", print, kText), OutputError);
    }
    EXPECT_EQ(folder.entries(), 1u);
    EXPECT_TRUE(test::bytes_of(folder / "a.png") == before);
}

TEST(PictureWriter, NoSuchFolder) {
    const test::Folder folder;
    EXPECT_THROW(write_png(folder / "no/a.png", ramp(4, 4), {}), OutputError);
    EXPECT_EQ(folder.entries(), 0u);
}

}  // namespace
}  // namespace rakelight
