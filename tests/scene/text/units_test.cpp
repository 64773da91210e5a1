#include "scene/text/units.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

struct Good {
    const char* text;
    Quantity quantity;
    double value;
    double tolerance;
};

using enum Quantity;

// Factors of NIST Special Publication 811 (2008), appendix B.8. Exact factors to a part in 1e12; the rounded
// results of kiln and hanging practice to the digits printed.
constexpr Good kGood[] = {
    {"12", length_mm, 12, 0},
    {"12.5mm", length_mm, 12.5, 0},
    {"  60 cm ", length_mm, 600, 0},
    {"2.5 m", length_mm, 2500, 0},
    {"24 in", length_mm, 609.6, 1e-9},
    {"1 ft", length_mm, 304.8, 0},
    {"-3 inches", length_mm, -76.2, 1e-9},
    {"3/8 in", length_mm, 9.525, 1e-12},  // as a rule is divided
    {"1 3/8 in", length_mm, 34.925, 1e-12},
    {"1-3/8in", length_mm, 34.925, 1e-12},
    {"5/4", length_mm, 1.25, 0},
    {"1/4 lb", mass_g, 453.59237 / 4, 1e-12},
    {"+4", length_mm, 4, 0},
    {".5", length_mm, 0.5, 0},
    {"1e2 mm", length_mm, 100, 0},
    {"65 lb", mass_g, 65 * 453.59237, 1e-9},  // 29.48 kg
    {"1 lb", mass_g, 453.59237, 1e-12},
    {"1 oz", mass_g, 28.349523125, 1e-12},
    {"1.5 kg", mass_g, 1500, 0},
    {"1550 F", temperature_c, 843.333333333, 1e-9},
    {"32 F", temperature_c, 0, 1e-12},
    {"212 °F", temperature_c, 100, 1e-12},
    {"-40 F", temperature_c, -40, 1e-12},
    {"293.15 K", temperature_c, 20, 1e-12},
    {"25", temperature_c, 25, 0},
    {"2700 K", temperature_k, 2700, 0},
    {"2700", temperature_k, 2700, 0},
    {"0 C", temperature_k, 273.15, 1e-12},
    {"30 deg", angle_deg, 30, 0},
    {"0.5 rad", angle_deg, 28.6478897565, 1e-9},
    {"45°", angle_deg, 45, 0},
    {"20 %", share, 0.2, 0},
    {"20%", share, 0.2, 0},
    {"0.2", share, 0.2, 0},
    {"700 lm", flux_lm, 700, 0},
    {"1200 cd", intensity_cd, 1200, 0},
    {"7", plain, 7, 0},
};

TEST(Units, AgreeWithTheirDefinitions) {
    for (const Good& c : kGood) {
        const Measure m = read_measure(c.text, c.quantity);
        ASSERT_TRUE(m.ok()) << c.text << ": " << m.problem;
        EXPECT_NEAR(m.value, c.value, c.tolerance) << c.text;
    }
}

struct Bad {
    const char* text;
    Quantity quantity;
    const char* words;  ///< what the message must say
};

constexpr Bad kBad[] = {
    {"", length_mm, "expected a length (mm, cm, m, in, ft)"},
    {"wide", length_mm, "found \"wide\""},
    {"mm", length_mm, "found \"mm\""},
    {"12 inchs", length_mm, "did you mean inch"},
    {"12 MM", length_mm, "did you mean mm?"},
    {"65 lb", length_mm, "expected a length"},
    {"24 in", mass_g, "expected a mass"},
    {"30 deg", temperature_k, "expected a temperature (K, C, F)"},
    {"20 %", length_mm, "expected a length"},
    {"5 mm", share, "expected a share"},
    {"5 mm", plain, "expected a number without a unit"},
    {"3/0 in", length_mm, "found \"3/0 in\""},
    {"1 5/4 in", length_mm, "found \"1 5/4 in\""},
    {"/4 in", length_mm, "found \"/4 in\""},
    {"3/ in", length_mm, "found \"3/ in\""},
    {"1.5/2 in", length_mm, "found \"1.5/2 in\""},
    {"3/4/5", length_mm, "found \"3/4/5\""},
    {"99999999/3", length_mm, "found \"99999999/3\""},
    {"12,5", length_mm, "write decimals with a point"},
    {"nan", length_mm, "found \"nan\""},
    {"inf", length_mm, "found \"inf\""},
    {"-inf mm", length_mm, "found \"-inf mm\""},
    {"1e999", length_mm, "found \"1e999\""},
    {"1e308 ft", length_mm, "found \"1e308 ft\""},
    {"0x10", length_mm, "found \"0x10\""},
    {"+-3", length_mm, "found \"+-3\""},
    {"--3", length_mm, "found \"--3\""},
    {"3 4", length_mm, "found \"3 4\""},
    {"700 cd", flux_lm, "expected a luminous flux (lm)"},
};

TEST(Units, RefuseWhatTheyCannotMean) {
    for (const Bad& c : kBad) {
        const Measure m = read_measure(c.text, c.quantity);
        EXPECT_FALSE(m.ok()) << c.text;
        EXPECT_NE(m.problem.find(c.words), std::string::npos) << c.text << ": " << m.problem;
    }
}

TEST(Units, MessagesStayShortAndPrintable) {
    const std::string text = read_measure(std::string(5000, 'x') + '\n', length_mm).problem;
    EXPECT_LT(text.size(), 200u);
    EXPECT_EQ(printable("a\nb\x1b"), "a?b?");
}

}  // namespace
}  // namespace rakelight
