// The profile in a print is sRGB, judged by Little CMS: its primaries and white, adapted to the D50 of ICC
// profiles, and its tone curve (IEC 61966-2-1); and a print says how large it is.
#include "output/print/srgb_profile.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>
#include <lcms2.h>

#include "output/print/picture_writer.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

cmsCIEXYZ to_xyz(const std::vector<std::uint8_t>& profile, double r, double g, double b) {
    const cmsHPROFILE from =
        cmsOpenProfileFromMem(profile.data(), static_cast<cmsUInt32Number>(profile.size()));
    EXPECT_TRUE(from);
    const cmsHPROFILE to = cmsCreateXYZProfile();
    const cmsHTRANSFORM transform = cmsCreateTransform(from, TYPE_RGB_DBL, to, TYPE_XYZ_DBL,
                                                       INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    const double rgb[3] = {r, g, b};
    cmsCIEXYZ xyz{};
    cmsDoTransform(transform, rgb, &xyz, 1);
    cmsDeleteTransform(transform);
    cmsCloseProfile(from);
    cmsCloseProfile(to);
    return xyz;
}

std::vector<std::uint8_t> profile_of(const OIIO::ImageSpec& spec) {
    const OIIO::ParamValue* p = spec.find_attribute("ICCProfile");
    if (!p) return {};
    const auto* data = static_cast<const std::uint8_t*>(p->data());
    return {data, data + p->datasize()};
}

void expect_srgb(const std::vector<std::uint8_t>& profile) {
    // Bradford-adapted sRGB to D50: red, green, blue; their sum is D50 (0.9642, 1, 0.8249).
    const double expected[3][3] = {
        {0.43607, 0.22250, 0.01393}, {0.38515, 0.71689, 0.09708}, {0.14308, 0.06062, 0.71417}};
    for (int i = 0; i < 3; ++i) {
        const cmsCIEXYZ xyz = to_xyz(profile, i == 0, i == 1, i == 2);
        EXPECT_NEAR(xyz.X, expected[i][0], 5e-4);
        EXPECT_NEAR(xyz.Y, expected[i][1], 5e-4);
        EXPECT_NEAR(xyz.Z, expected[i][2], 5e-4);
    }
    // Linear light of encoded 0.5: ((0.5 + 0.055) / 1.055)^2.4; of 0.02: 0.02 / 12.92.
    EXPECT_NEAR(to_xyz(profile, 0.5, 0.5, 0.5).Y, 0.21404, 2e-4);
    EXPECT_NEAR(to_xyz(profile, 0.02, 0.02, 0.02).Y, 0.02 / 12.92, 2e-5);
}

TEST(SrgbProfile, IsSrgbAndTheSameOnAnyDay) {
    expect_srgb(srgb_profile());
    EXPECT_EQ(srgb_profile(), srgb_profile());
}

TEST(SrgbProfile, IsInAPrintWhichSaysItsSize) {
    const test::Folder folder;
    const Print print{300, 150, std::vector<float>(3 * 300 * 150, 0.5f)};
    write_png(folder / "print.png", print, {}, PrintDepth::bits8, 300);
    const auto in = OIIO::ImageInput::open((folder / "print.png").string());
    ASSERT_TRUE(in);
    expect_srgb(profile_of(in->spec()));
    // PNG counts whole pixels a metre: 300 dpi is 11811.02.
    EXPECT_NEAR(in->spec().get_float_attribute("XResolution"), 300, 0.01);
    EXPECT_NEAR(in->spec().get_float_attribute("YResolution"), 300, 0.01);
    EXPECT_EQ(in->spec().get_string_attribute("ResolutionUnit").substr(0, 2), "in");
    const std::string bytes = test::bytes_of(folder / "print.png");
    const std::size_t phys = bytes.find("pHYs");
    ASSERT_NE(phys, std::string::npos);
    EXPECT_EQ(bytes.substr(phys + 4, 9),
              std::string("\x00\x00\x2e\x23\x00\x00\x2e\x23\x01", 9));  // 11811, 11811, metre
}

TEST(SrgbProfile, IsNotInPicturesForTheScreen) {
    const test::Folder folder;
    write_png(folder / "screen.png", {16, 16, std::vector<float>(3 * 256, 0.5f)}, {});
    const auto in = OIIO::ImageInput::open((folder / "screen.png").string());
    ASSERT_TRUE(in);
    EXPECT_TRUE(profile_of(in->spec()).empty());
}

}  // namespace
}  // namespace rakelight
