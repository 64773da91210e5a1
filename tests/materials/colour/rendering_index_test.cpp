// The colour rendering index of lamps whose index is published.
#include "materials/colour/rendering_index.h"

#include <gtest/gtest.h>

#include "materials/colour/colorimetry.h"
#include "materials/colour/colour_temperature.h"
#include "materials/colour/illuminants.h"
#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

Spectrum lamp_file(const std::string& name) {
    const auto file = test::read_spectral_table("/usr/share/colord/illuminant/CIE-" + name + ".sp");
    Spectrum s;
    for (int i = 0; i < kSpectrumCount; ++i) s[i] = file.at(0, spectrum_wavelength_nm(i));
    return s;
}

// CIE 15:2004, Table 11 (from memory) gives whole numbers: half a unit for that, and the rounding of the test
// colours.
TEST(RenderingIndex, GeneralIndexOfTheFluorescentLamps) {
    struct Row {
        const char* name;
        double ra;
        double tolerance;
    };
    for (const Row& row : {Row{"F1", 76, 0.8}, Row{"F2", 64, 0.6}, Row{"F4", 51, 0.6}, Row{"F7", 90, 0.6},
                           Row{"F8", 95, 0.8}, Row{"F11", 83, 0.8}, Row{"F12", 83, 0.8}})
        EXPECT_NEAR(rendering_index(lamp_file(row.name)).general, row.ra, row.tolerance) << row.name;
}

// References against themselves: CIE 13.3, clause 5: 100 by definition.
TEST(RenderingIndex, ReferencesAreHundred) {
    for (const char* name : {"A", "D50", "D65"}) {
        const RenderingIndex index = rendering_index(*find_illuminant(name));
        EXPECT_NEAR(index.general, 100, 0.05) << name;
        for (const double r : index.special) EXPECT_NEAR(r, 100, 0.3) << name;
    }
}

// F1, special indices as the colour-science project (BSD-3-Clause) asserts them in its tests.
TEST(RenderingIndex, SpecialIndicesOfF1) {
    const double published[8] = {69.20, 83.65, 92.14, 72.67, 73.89, 79.62, 82.27, 53.39};
    const RenderingIndex index = rendering_index(lamp_file("F1"));
    for (std::size_t i = 0; i < 8; ++i) EXPECT_NEAR(index.special[i], published[i], 0.8) << "R" << i + 1;
}

// CIE 015:2018, nominal colour temperatures of the LED illuminants, and of the older ones; within 3 K.
TEST(RenderingIndex, ColourTemperaturesOfTheShippedLamps) {
    struct Row {
        const char* name;
        double cct;
        double tolerance;
    };
    for (const Row& row :
         {Row{"A", 2856, 2}, Row{"D50", 5003, 3}, Row{"D65", 6504, 3}, Row{"F2", 4230, 8}, Row{"F7", 6500, 8},
          Row{"F11", 4000, 5}, Row{"LED-B1", 2733, 3}, Row{"LED-B2", 2998, 3}, Row{"LED-B3", 4103, 3},
          Row{"LED-B4", 5109, 3}, Row{"LED-B5", 6598, 3}, Row{"LED-BH1", 2851, 3}, Row{"LED-RGB1", 2840, 3},
          Row{"LED-V1", 2724, 3}, Row{"LED-V2", 4070, 3}})
        EXPECT_NEAR(cct_k(spectrum_to_xyz(*find_illuminant(row.name))), row.cct, row.tolerance) << row.name;
}

// The test colours are those of the standard as another project carries them.
TEST(RenderingIndex, TestColoursAgreeWithColordData) {
    std::ifstream file("/usr/share/colord/ref/CIE-TCS.sp");
    ASSERT_TRUE(file);
    int found = 0;
    for (std::string line; std::getline(file, line);) {
        std::istringstream in(line);
        std::string name;
        in >> name;
        if (name.rfind("TCS", 0) != 0) continue;
        if (++found > kTestColourCount) break;
        const Spectrum& ours = kTestColours[static_cast<std::size_t>(found) - 1];
        double value = 0;
        for (int nm = 360; nm <= 780 && in >> value; nm += 5) {
            if (nm < kSpectrumFirst_nm) continue;
            EXPECT_NEAR(ours[(nm - 380) / 5], value, 1e-9) << name << ' ' << nm;
        }
    }
    EXPECT_GE(found, kTestColourCount);
}

// A lamp without deep red shows the strong red badly: R9 is well below Ra.
TEST(RenderingIndex, StrongRedUnderAPhosphorLamp) {
    for (const char* name : {"F2", "F11", "LED-B3"}) {
        const RenderingIndex index = rendering_index(*find_illuminant(name));
        EXPECT_LT(index.r9(), index.general - 40) << name;
    }
}

}  // namespace
}  // namespace rakelight
