// Photometric files of every type and symmetry, written from ANSI/IES LM-63 (from memory), against closed
// forms of flux and against directions worked out by hand.
#include "scene/light/photometric_file.h"

#include <gtest/gtest.h>

#include "tests/support/photometric_samples.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr double kPi = std::numbers::pi;

PhotometricFile read(const FileMaker& maker, const std::function<double(double, double)>& at) {
    return read_photometric_text(maker.text(at), "t.ies");
}

glm::vec3 type_c(double vertical, double horizontal) {
    return glm::vec3(sin_deg(vertical) * cos_deg(horizontal), sin_deg(vertical) * sin_deg(horizontal),
                     cos_deg(vertical));
}

}  // namespace

// A matte face of I0 gives pi I0; cos^n gives 2 pi I0 / (n + 1); the same everywhere 4 pi I0.
TEST(PhotometricFile, FluxOfClosedForms) {
    FileMaker maker{.vertical = angles(0, 90, 2.5), .horizontal = {0}};
    EXPECT_NEAR(read(maker, [](double v, double) { return 1000 * cos_deg(v); }).lumens, 1000 * kPi, 2);
    for (const double n : {2.0, 4.819, 13.813, 31.372}) {
        maker.vertical = angles(0, 90, 1);
        const double expected = 2 * kPi * 1000 / (n + 1);
        EXPECT_NEAR(
            read(maker, [&](double v, double) { return 1000 * std::pow(std::max(cos_deg(v), 0.0), n); })
                .lumens,
            expected, 0.002 * expected);
    }
    maker.vertical = angles(0, 180, 5);
    EXPECT_NEAR(read(maker, [](double, double) { return 100.0; }).lumens, 400 * kPi, 1e-3);
    maker.vertical = angles(90, 180, 5);
    EXPECT_NEAR(read(maker, [](double, double) { return 100.0; }).lumens, 200 * kPi, 1e-3);
}

// 1000 cos^2 at every 10 degrees, rounded to 0.1 cd: 2105.03 lm when candela runs straight between the
// readings and the sine is exact; 2115.64 lm by the zones of the IES Lighting Handbook. Both from the
// formulas.
TEST(PhotometricFile, WorkedExample) {
    const FileMaker maker{.vertical = angles(0, 90, 10), .horizontal = {0}};
    const auto candela = [](double v, double) { return std::round(10000 * cos_deg(v) * cos_deg(v)) / 10; };
    const PhotometricFile file = read(maker, candela);
    EXPECT_NEAR(file.lumens, 2105.03, 0.01);
    double zones = 0;
    for (int i = 0; i < 9; ++i)
        zones += 2 * kPi * (cos_deg(10 * i) - cos_deg(10 * i + 10)) *
                 (file.intensity.candela[static_cast<std::size_t>(i)] +
                  file.intensity.candela[static_cast<std::size_t>(i + 1)]) /
                 2;
    EXPECT_NEAR(zones, 2115.64, 0.01);
}

// Four ways to write one distribution that has every symmetry: at the readings themselves, and with equal
// flux.
TEST(PhotometricFile, SymmetriesOfTypeC) {
    const auto candela = [](double v, double h) {
        return 500 * cos_deg(v) * (1 + 0.5 * cos_deg(2 * h)) + 20;
    };
    FileMaker maker{.vertical = angles(0, 180, 10)};
    for (const double last : {90.0, 180.0, 360.0, 345.0}) {
        maker.horizontal = angles(0, last, 15);
        const auto file = read(maker, [&](double v, double h) { return candela(std::min(v, 90.0), h); });
        for (const double h : {0.0, 15.0, 90.0, 105.0, 180.0, 255.0, 300.0, 345.0})
            for (const double v : {10.0, 40.0, 90.0, 150.0})
                EXPECT_NEAR(file.intensity.at(type_c(v, h)), candela(std::min(v, 90.0), h), 0.05)
                    << last << ' ' << v << ' ' << h;
        // The lobes of cos 2h cancel: a cosine of 500 cd below and 20 cd everywhere are left.
        const double expected = 500 * kPi + 20 * 4 * kPi;
        EXPECT_NEAR(file.lumens, expected, 0.01 * expected) << last;
    }
}

TEST(PhotometricFile, AsymmetricTypeCKeepsItsSides) {
    const auto candela = [](double v, double h) { return v <= 90 ? 100 + h + v : 0.0; };
    FileMaker maker{.vertical = angles(0, 90, 10), .horizontal = angles(0, 350, 10)};
    const auto file = read(maker, candela);
    for (const double h : {0.0, 10.0, 90.0, 190.0, 350.0})
        EXPECT_NEAR(file.intensity.at(type_c(50, h)), candela(50, h), 0.05) << h;
    // Halfway between 350 and 360, which is 0 again.
    EXPECT_NEAR(file.intensity.at(type_c(50, 355)), (candela(50, 350) + candela(50, 0)) / 2, 0.05);
    EXPECT_EQ(file.intensity.at(type_c(91, 10)), 0);

    // Symmetric about the plane of 90 and 270 alone: C 60 is as C 120, C 300 as C 240.
    maker.horizontal = angles(90, 270, 15);
    const auto aside = read(maker, [](double v, double h) { return v + h; });
    EXPECT_NEAR(aside.intensity.at(type_c(50, 60)), 50 + 120, 0.05);
    EXPECT_NEAR(aside.intensity.at(type_c(50, 300)), 50 + 240, 0.05);
    EXPECT_NEAR(aside.intensity.at(type_c(50, 0)), 50 + 180, 0.05);
}

// A beam that is a cosine power of the angle from its axis has the same flux in any coordinates, and the same
// candela 20 degrees to the right of, above and below the axis as the file has there.
TEST(PhotometricFile, TypesAAndB) {
    for (const int type : {2, 3})
        for (const double first : {-90.0, 0.0}) {
            FileMaker maker{
                .type = type, .vertical = angles(first, 90, 5), .horizontal = angles(first, 90, 5)};
            const auto beam = [](double v, double h) { return 1000 * std::pow(cos_deg(v) * cos_deg(h), 4); };
            // In both types the cosine of the angle from the axis is cos v cos h.
            const auto file = read(maker, beam);
            EXPECT_NEAR(file.lumens, 2 * kPi * 1000 / 5, 0.01 * 2 * kPi * 200) << type << ' ' << first;
            EXPECT_NEAR(file.intensity.at({0, 0, 1}), 1000, 0.1);
            EXPECT_NEAR(file.intensity.at({0, 0, -1}), 0, 1e-6);
        }
    // Right is -x, up is -y of the lamp's frame. One degree of the file is one candela here.
    for (const int type : {2, 3}) {
        FileMaker maker{.type = type, .vertical = angles(-90, 90, 10), .horizontal = angles(-90, 90, 10)};
        const auto file = read(maker, [](double v, double h) { return 300 + h + 2 * v; });
        const auto s = [](double a) { return static_cast<float>(sin_deg(a)); };
        const auto c = [](double a) { return static_cast<float>(cos_deg(a)); };
        EXPECT_NEAR(file.intensity.at({-s(20), 0, c(20)}), 320, 0.05) << type;
        EXPECT_NEAR(file.intensity.at({s(20), 0, c(20)}), 280, 0.05) << type;
        EXPECT_NEAR(file.intensity.at({0, -s(20), c(20)}), 340, 0.05) << type;
        // 30 up and 40 to the right: B turns up about the level pole first, A to the side about the upright
        // one.
        const glm::vec3 b(-s(40), -c(40) * s(30), c(40) * c(30));
        const glm::vec3 a(-c(30) * s(40), -s(30), c(30) * c(40));
        EXPECT_NEAR(file.intensity.at(type == 2 ? b : a), 300 + 40 + 60, 0.05) << type;
    }
}

TEST(PhotometricFile, FactorsAndUnits) {
    FileMaker maker{.version = "IESNA:LM-63-1995",
                    .multiplier = 2,
                    .unit = 1,
                    .opening = "1 2 0",
                    .factors = "0.9 0.95 33",
                    .vertical = angles(0, 90, 10),
                    .horizontal = {0}};
    const auto flat = [](double, double) { return 100.0; };
    PhotometricFile file = read(maker, flat);
    // The ballast-lamp factor counts up to 1995; 1 ft is 304.8 mm.
    EXPECT_NEAR(file.intensity.at({0, 0, 1}), 100 * 2 * 0.9 * 0.95, 1e-3);
    EXPECT_NEAR(file.width_mm, 304.8, 1e-9);
    EXPECT_NEAR(file.length_mm, 609.6, 1e-9);
    EXPECT_EQ(file.opening, Opening::rectangle);
    EXPECT_EQ(file.year, 1995);
    EXPECT_EQ(file.input_watts, 33);
    maker.version = "IESNA:LM-63-2002";
    file = read(maker, flat);
    EXPECT_NEAR(file.intensity.at({0, 0, 1}), 100 * 2 * 0.9, 1e-3);
    ASSERT_EQ(file.notes.size(), 1u);
    EXPECT_NE(file.notes[0].find("0.95"), std::string::npos);
}

TEST(PhotometricFile, OpeningsByTheirSigns) {
    struct Row {
        const char* version;
        const char* numbers;
        Opening opening;
        double length_mm, width_mm, height_mm;
    };
    const char* const kOld = "IESNA:LM-63-1995";
    const char* const kNew = "IESNA:LM-63-2002";
    for (const Row& row :
         {Row{kNew, "0 0 0", Opening::point, 0, 0, 0}, Row{kNew, ".3 .6 0", Opening::rectangle, 600, 300, 0},
          Row{kNew, ".3 .6 .1", Opening::box, 600, 300, 100},
          Row{kNew, "-.2 -.2 0", Opening::ellipse, 200, 200, 0},
          Row{kNew, "-.2 -.3 0", Opening::ellipse, 300, 200, 0},
          Row{kNew, "-.2 -.2 .4", Opening::cylinder, 200, 200, 400},
          Row{kNew, "-.2 -.2 -.2", Opening::sphere, 200, 200, 200},
          Row{kNew, "-.03 1.2 -.03", Opening::tube_along, 1200, 30, 30},
          Row{kNew, "1.2 -.03 -.03", Opening::tube_across, 30, 1200, 30},
          Row{kNew, "-.2 0 -.2", Opening::upright, 0, 200, 200},
          Row{kOld, "-.2 0 0", Opening::ellipse, 200, 200, 0},
          Row{kOld, "-.2 0 -.2", Opening::sphere, 200, 200, 200},
          Row{kOld, "-.2 0 .4", Opening::cylinder, 200, 200, 400},
          Row{kOld, "0 1.2 -.03", Opening::tube_along, 1200, 30, 30},
          Row{kOld, "1.2 0 -.03", Opening::tube_across, 30, 1200, 30}}) {
        const FileMaker maker{.version = row.version,
                              .opening = row.numbers,
                              .vertical = angles(0, 180, 30),
                              .horizontal = {0}};
        const auto file = read(maker, [](double, double) { return 1.0; });
        EXPECT_EQ(file.opening, row.opening) << row.numbers;
        EXPECT_NEAR(file.length_mm, row.length_mm, 1e-9) << row.numbers;
        EXPECT_NEAR(file.width_mm, row.width_mm, 1e-9) << row.numbers;
        EXPECT_NEAR(file.height_mm, row.height_mm, 1e-9) << row.numbers;
    }
}

TEST(PhotometricFile, LabelsOfEveryYear) {
    const std::string numbers = "1 1000 1 2 1 1 2 0 0 0 1 1 10\n0,90\n0\n100,\t0\n";
    const auto keyed = read_photometric_text(
        "\xef\xbb\xbfIESNA:LM-63-2002\r\n[TEST] 7\r\n[MANUFAC] none\r\n[MORE] at all\r\n[_OWN] "
        "x\r\n\r\nTILT=NONE\r\n" +
            numbers,
        "t.ies");
    EXPECT_EQ(keyed.year, 2002);
    ASSERT_EQ(keyed.keywords.size(), 3u);
    EXPECT_EQ(keyed.keywords[1].second, "none\nat all");
    EXPECT_EQ(keyed.keywords[2].first, "_OWN");
    EXPECT_EQ(read_photometric_text("IESNA91\n[TEST] 7\nTILT=NONE\n" + numbers, "t.ies").year, 1991);
    const auto oldest = read_photometric_text("a lamp\rof long ago\rTILT=NONE\r" + numbers, "t.ies");
    EXPECT_EQ(oldest.year, 1986);
    ASSERT_FALSE(oldest.notes.empty());
    EXPECT_NE(oldest.notes[0].find("no version"), std::string::npos);
}

TEST(PhotometricFile, Tilt) {
    const std::string head = "IESNA:LM-63-2002\n[TEST] 7\n[MANUFAC] none\n";
    const std::string numbers = "1 1000 1 2 1 1 2 0 0 0 1 1 10\n0 90\n0\n100 0\n";
    const std::string tilt = "1\n3\n0 30 90\n1.0 0.9 0.6\n";
    const test::Folder folder;
    folder.write("lamp.tlt", tilt);
    for (const std::string& way : {"TILT=INCLUDE\n" + tilt, std::string("TILT=lamp.tlt\n")}) {
        const auto file = read_photometric_text(head + way + numbers, "t.ies", folder.path());
        EXPECT_NEAR(file.tilt.at(0), 1, 1e-12);
        EXPECT_NEAR(file.tilt.at(15), 0.95, 1e-12);
        EXPECT_NEAR(file.tilt.at(60), 0.75, 1e-12);
        EXPECT_NEAR(file.tilt.at(120), 0.6, 1e-12);
        EXPECT_NEAR(file.intensity.at({0, 0, 1}), 100, 1e-4);
    }
}

}  // namespace rakelight
