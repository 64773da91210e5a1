#include "materials/colour/illuminants.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "tests/support/published_whites.h"
#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

Spectrum illuminant(std::string_view name) {
    return find_illuminant(name).value();
}

// Half a unit of the last published figure, and a little for the choice of summation.
TEST(Illuminants, WhitesAreThePublished) {
    for (const auto& [name, white] : test::kPublishedWhites) {
        const Chromaticity c = chromaticity(spectrum_to_xyz(illuminant(name)));
        EXPECT_NEAR(c.x, white.x, 1e-4) << name;
        EXPECT_NEAR(c.y, white.y, 1e-4) << name;
    }
}

TEST(Illuminants, EveryNameIsFoundAndPublished) {
    const auto names = illuminant_names();
    EXPECT_EQ(names.size(), test::kPublishedWhites.size());
    for (const auto& [name, white] : test::kPublishedWhites)
        EXPECT_NE(std::find(names.begin(), names.end(), name), names.end()) << name;
    for (const auto& name : names) EXPECT_TRUE(find_illuminant(name)) << name;
    for (const auto* unknown : {"", "d65", "D65 ", "D93", "LED-B6"})
        EXPECT_FALSE(find_illuminant(unknown)) << unknown;
}

// ASTM E308, Table 5, 1931 observer, Y = 100. The daylights differ more, because E308 sums its own rounded
// tables.
TEST(Illuminants, TristimulusValuesOfAstmE308) {
    struct Row {
        const char* name;
        double x, z, tolerance;
    };
    for (const Row& row :
         {Row{"A", 109.850, 35.585, 0.02}, Row{"C", 98.074, 118.232, 0.02}, Row{"D50", 96.422, 82.521, 0.05},
          Row{"D55", 95.682, 92.149, 0.05}, Row{"D65", 95.047, 108.883, 0.05},
          Row{"D75", 94.972, 122.638, 0.05}, Row{"F2", 99.186, 67.393, 0.02},
          Row{"F7", 95.041, 108.747, 0.02}, Row{"F11", 100.962, 64.350, 0.02}, Row{"E", 100, 100, 0.01}}) {
        const Xyz white = spectrum_to_xyz(illuminant(row.name));
        EXPECT_NEAR(100 * white.x, row.x, row.tolerance) << row.name;
        EXPECT_DOUBLE_EQ(white.y, 1) << row.name;
        EXPECT_NEAR(100 * white.z, row.z, row.tolerance) << row.name;
    }
}

// Our formulas and tables against the files of colord-data, an outside reader of the same standards. Both are
// scaled to 100 at 560 nm. Daylight is tabulated to a few figures, and D50 there without the rounding of M1
// and M2.
TEST(Illuminants, AgreeWithColordData) {
    struct Row {
        const char* name;
        double tolerance;
    };
    for (const Row& row :
         {Row{"A", 0.001}, Row{"C", 1e-6}, Row{"D50", 0.1}, Row{"D55", 0.006}, Row{"D65", 0.001},
          Row{"E", 1e-9}, Row{"F2", 1e-6}, Row{"F7", 1e-6}, Row{"F11", 1e-6}}) {
        const auto file =
            test::read_spectral_table(std::string("/usr/share/colord/illuminant/CIE-") + row.name + ".sp");
        const Spectrum ours = illuminant(row.name);
        const int unity = (560 - kSpectrumFirst_nm) / kSpectrumStep_nm;
        for (int i = 0; i < kSpectrumCount; ++i) {
            const int nm = spectrum_wavelength_nm(i);
            EXPECT_NEAR(100 * ours[i] / ours[unity], 100 * file.at(0, nm) / file.at(0, 560), row.tolerance)
                << row.name << " " << nm;
        }
    }
}

// ISO/CIE 11664-2, tabulated values of A.
TEST(Illuminants, AIsTheFormula) {
    const Spectrum a = illuminant("A");
    const auto at = [&](int nm) { return a[(nm - 380) / 5]; };
    EXPECT_NEAR(at(380), 9.7951, 1e-4);
    EXPECT_NEAR(at(400), 14.7080, 1e-4);
    EXPECT_NEAR(at(560), 100, 1e-12);
    EXPECT_NEAR(at(700), 198.261, 1e-3);
    EXPECT_NEAR(at(780), 241.675, 1e-3);
}

// Wien's displacement law: the peak of Planck's law is at 2.897772e6 nm K / T.
TEST(Illuminants, BlackBodyPeaksWhereWienSays) {
    for (const double peak_nm : {420.0, 500.0, 600.0, 700.0}) {
        const Spectrum s = planckian(2.897772e6 / peak_nm);
        const auto top = std::max_element(s.v.begin(), s.v.end()) - s.v.begin();
        EXPECT_NEAR(spectrum_wavelength_nm(static_cast<int>(top)), peak_nm, 5);
    }
}

TEST(Illuminants, RefusesWhatNoFormulaCovers) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double t : {3999.9, 25000.1, -1.0, 0.0, nan})
        EXPECT_THROW(daylight(t), std::out_of_range) << t;
    for (const double t : {499.0, 1.1e6, -2856.0, 0.0, nan})
        EXPECT_THROW(planckian(t), std::out_of_range) << t;
    for (const double t : {4000.0, 25000.0})
        for (const double power : daylight(t).v) EXPECT_GT(power, 0);
    for (const double t : {500.0, 1e6})
        for (const double power : planckian(t).v) EXPECT_TRUE(std::isfinite(power) && power > 0);
}

}  // namespace
}  // namespace rakelight
