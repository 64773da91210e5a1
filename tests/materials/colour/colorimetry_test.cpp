#include "materials/colour/colorimetry.h"

#include <gtest/gtest.h>
#include <lcms2.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

constexpr Xyz kE308D50{0.96422, 1, 0.82521};  // ASTM E308, Table 5
constexpr Xyz kE308D65{0.95047, 1, 1.08883};

void expect_near(const Xyz& a, const Xyz& b, double tolerance) {
    EXPECT_NEAR(a.x, b.x, tolerance);
    EXPECT_NEAR(a.y, b.y, tolerance);
    EXPECT_NEAR(a.z, b.z, tolerance);
}

template <class F>
void over_colours(F&& check) {
    for (double x = 0; x < 1.2; x += 0.13)
        for (double y = 0; y < 1.2; y += 0.17)
            for (double z = 0; z < 1.2; z += 0.19) check(Xyz{x * x, y * y, z * z});
}

// LittleCMS as outside judge, from black through the straight part of the curve to brighter than white.
TEST(Colorimetry, LabAgreesWithLittleCms) {
    const cmsCIEXYZ judge_white{kE308D50.x, kE308D50.y, kE308D50.z};
    over_colours([&](const Xyz& colour) {
        const cmsCIEXYZ judge_colour{colour.x, colour.y, colour.z};
        cmsCIELab expected;
        cmsXYZ2Lab(&judge_white, &expected, &judge_colour);
        const Lab ours = xyz_to_lab(colour, kE308D50);
        EXPECT_NEAR(ours.l, expected.L, 1e-6);
        EXPECT_NEAR(ours.a, expected.a, 1e-6);
        EXPECT_NEAR(ours.b, expected.b, 1e-6);
        expect_near(lab_to_xyz(ours, kE308D50), colour, 1e-12);
    });
}

// CIE 015:2018: white is 100, 0, 0; black 0, 0, 0; an 18.42 % grey is half as light.
TEST(Colorimetry, LabOfGreys) {
    EXPECT_NEAR(xyz_to_lab(kE308D65, kE308D65).l, 100, 1e-12);
    EXPECT_NEAR(xyz_to_lab({}, kE308D65).l, 0, 1e-12);
    const double grey = 0.184187;
    const Lab lab = xyz_to_lab({grey * kE308D65.x, grey, grey * kE308D65.z}, kE308D65);
    EXPECT_NEAR(lab.l, 50, 1e-4);
    EXPECT_NEAR(lab.a, 0, 1e-12);
    EXPECT_NEAR(lab.b, 0, 1e-12);
}

// The 24 chart colours of Ohta (1997) under D50 against the Lab published with the chart. Two specimens of
// one chart: the difference left, about 1 in the mean, is theirs.
TEST(Colorimetry, ChartColoursAreThePublished) {
    const auto chart = test::read_csv(RAKELIGHT_TEST_DATA "/chart24_reflectance.csv");
    const auto reference = test::read_csv(RAKELIGHT_TEST_DATA "/chart24_lab.csv");
    ASSERT_EQ(chart.rows.size(), reference.rows.size());
    const Spectrum d50 = find_illuminant("D50").value();
    const Xyz white = spectrum_to_xyz(d50);
    double total = 0;
    for (std::size_t row = 0; row < chart.rows.size(); ++row) {
        ASSERT_EQ(chart.rows[row][0], reference.rows[row][0]);
        const std::vector<double> measured = chart.curve(row, "R", 400, 700, 10);
        const Lab ours = xyz_to_lab(spectrum_to_xyz(d50, spectrum_from_table(400, 10, measured)), white);
        const Lab published{reference.number(row, "L_D50_ref"), reference.number(row, "a_D50_ref"),
                            reference.number(row, "b_D50_ref")};
        const double difference = ciede2000(ours, published);
        EXPECT_LT(difference, 1.8) << chart.rows[row][0];
        total += difference;
    }
    EXPECT_LT(total / static_cast<double>(chart.rows.size()), 1.07);
}

TEST(Colorimetry, SpectraOfNoLightAreRefused) {
    EXPECT_THROW(spectrum_to_xyz(Spectrum{}), std::invalid_argument);
}

TEST(Colorimetry, ChromaticityAndBack) {
    const Xyz white = xyz_of(kD65, 80);
    EXPECT_EQ(white.y, 80);
    EXPECT_NEAR(chromaticity(white).x, kD65.x, 1e-15);
    EXPECT_NEAR(chromaticity(white).y, kD65.y, 1e-15);
}

// The matrix that follows from the primaries and white of IEC 61966-2-1; the standard prints its rounded
// form, 0.4124 0.3576 0.1805 / 0.2126 0.7152 0.0722 / 0.0193 0.1192 0.9505.
TEST(Colorimetry, SrgbPrimaries) {
    expect_near(linear_rgb_to_xyz({1, 0, 0}), {0.4124, 0.2126, 0.0193}, 5.1e-5);
    expect_near(linear_rgb_to_xyz({0, 1, 0}), {0.3576, 0.7152, 0.1192}, 5.1e-5);
    expect_near(linear_rgb_to_xyz({0, 0, 1}), {0.1805, 0.0722, 0.9505}, 5.1e-5);
    expect_near(linear_rgb_to_xyz({1, 1, 1}), {0.950456, 1, 1.089058}, 1e-6);
    over_colours(
        [](const Xyz& colour) { expect_near(linear_rgb_to_xyz(xyz_to_linear_rgb(colour)), colour, 1e-13); });
}

// The transfer function of IEC 61966-2-1, worked from its formula; 18 % grey is the 118 that photographers
// know.
TEST(Colorimetry, SrgbTransferFunction) {
    struct Row {
        double linear, encoded;
        int byte;
    };
    for (const Row& row :
         {Row{0, 0, 0}, Row{0.001, 0.012920, 3}, Row{0.0031308, 0.040450, 10}, Row{0.01, 0.099853, 25},
          Row{0.05, 0.247801, 63}, Row{0.1, 0.349190, 89}, Row{0.18, 0.461356, 118}, Row{0.5, 0.735357, 188},
          Row{0.9, 0.954687, 243}, Row{1, 1, 255}}) {
        const EncodedSrgb encoded = encode({row.linear, 0, row.linear});
        EXPECT_NEAR(encoded.r, row.encoded, 1e-6);
        EXPECT_EQ(encoded.g, 0);
        EXPECT_EQ(encoded.b, encoded.r);
        EXPECT_EQ(to_bytes(encoded)[0], row.byte);
        EXPECT_NEAR(encode({-row.linear, 0, 0}).r, -row.encoded, 1e-6);
    }
    struct Decoded {
        std::uint8_t byte;
        double linear;
    };
    for (const Decoded& row :
         {Decoded{1, 0.0003035}, Decoded{10, 0.0030353}, Decoded{11, 0.0033465}, Decoded{64, 0.0512695},
          Decoded{118, 0.1811642}, Decoded{128, 0.2158605}, Decoded{188, 0.5028865}, Decoded{254, 0.9911021}})
        EXPECT_NEAR(decode(from_bytes({0, row.byte, 0})).g, row.linear, 1e-7) << int{row.byte};
}

TEST(Colorimetry, EveryByteSurvives) {
    for (int i = 0; i < 256; ++i) {
        const auto byte = static_cast<std::uint8_t>(i);
        const std::array<std::uint8_t, 3> bytes{byte, static_cast<std::uint8_t>(255 - i), byte};
        EXPECT_EQ(to_bytes(encode(decode(from_bytes(bytes)))), bytes);
    }
}

TEST(Colorimetry, BytesAreClamped) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    EXPECT_EQ(to_bytes({-0.2, 1.7, nan}), (std::array<std::uint8_t, 3>{0, 255, 0}));
    EXPECT_EQ(to_bytes({-inf, inf, 0.5}), (std::array<std::uint8_t, 3>{0, 255, 128}));
}

// LittleCMS as outside judge of the linear Bradford transform.
TEST(Colorimetry, AdaptationAgreesWithLittleCms) {
    const Xyz a = spectrum_to_xyz(find_illuminant("A").value());
    const cmsCIEXYZ from{a.x, a.y, a.z};
    const cmsCIEXYZ to{kE308D65.x, kE308D65.y, kE308D65.z};
    over_colours([&](const Xyz& colour) {
        const cmsCIEXYZ judge_colour{colour.x, colour.y, colour.z};
        cmsCIEXYZ expected;
        ASSERT_TRUE(cmsAdaptToIlluminant(&expected, &from, &to, &judge_colour));
        expect_near(adapt(colour, a, kE308D65), {expected.X, expected.Y, expected.Z}, 1e-9);
    });
}

// The colorants of an sRGB profile are its primaries adapted to the D50 of ICC.1 (0.9642, 1, 0.8249); values
// as usual in such profiles, from memory. Profiles differ by 2e-4 in how they round the two whites.
TEST(Colorimetry, AdaptationMakesTheColorantsOfAnSrgbProfile) {
    const Xyz pcs{0.9642, 1, 0.8249};
    const Xyz white = xyz_of(kD65);
    expect_near(adapt(linear_rgb_to_xyz({1, 0, 0}), white, pcs), {0.4361, 0.2225, 0.0139}, 3e-4);
    expect_near(adapt(linear_rgb_to_xyz({0, 1, 0}), white, pcs), {0.3851, 0.7169, 0.0971}, 3e-4);
    expect_near(adapt(linear_rgb_to_xyz({0, 0, 1}), white, pcs), {0.1431, 0.0606, 0.7141}, 3e-4);
}

TEST(Colorimetry, AdaptationOfWhiteIsWhiteAndTurnsBack) {
    const Xyz a = spectrum_to_xyz(find_illuminant("A").value());
    expect_near(adapt(a, a, kE308D65), kE308D65, 1e-14);
    expect_near(adapt({}, a, kE308D65), {}, 0);
    over_colours([&](const Xyz& colour) {
        expect_near(adapt(adapt(colour, a, kE308D65), kE308D65, a), colour, 1e-13);
        expect_near(adapt(colour, a, a), colour, 1e-14);
    });
}

}  // namespace
}  // namespace rakelight
