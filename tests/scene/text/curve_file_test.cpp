#include "scene/text/curve_file.h"

#include <gtest/gtest.h>

#include <string>

#include "scene/text/diagnostics.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

/// A file that goes away again.
struct Table {
    test::Folder folder;
    std::filesystem::path path;
    explicit Table(const std::string& text) : path(folder.write("table", text)) {}
};

std::string rows(int first, int last, int step, const std::string& values) {
    std::string text;
    for (int nm = first; nm <= last; nm += step) text += std::to_string(nm) + values + "\n";
    return text;
}

TEST(CurveFile, CommasSemicolonsTabsPercentAndHeading) {
    for (const char* values : {",0.25,0.5", "; 25 %; 50 %", "\t.25\t.5\r"}) {
        const Table table("# my sheet\n\nwavelength,a,b\n" + rows(380, 730, 10, values));
        const std::vector<SampledSpectrum> curves = read_curves(table.path, 2);
        ASSERT_EQ(curves.size(), 2u);
        EXPECT_EQ(curves[0], SampledSpectrum(0.25f));
        EXPECT_EQ(curves[1], SampledSpectrum(0.5f));
    }
}

TEST(CurveFile, LinearBetweenReadings) {
    // A ramp of 0.001 per nm read every 15 nm: 400 nm lies between two readings.
    std::string text;
    for (int nm = 395; nm <= 710; nm += 15)
        text += std::to_string(nm) + "," + std::to_string((nm - 300) / 1000.0) + "\n";
    const Table table(text);
    const SampledSpectrum curve = read_curves(table.path, 1).at(0);
    for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(curve[b], (band_wavelength_nm(b) - 300) / 1000.0, 1e-6);
}

TEST(CurveFile, BadTables) {
    const struct {
        std::string text;
        const char* said;
    } cases[] = {
        {"", "found no readings"},
        {"# nothing\n", "found no readings"},
        {rows(400, 680, 20, ",.5"), "found readings up to 680 nm"},
        {rows(420, 700, 20, ",.5"), ":1:1: found 420 nm first"},
        {rows(400, 440, 20, ",.5") + rows(480, 700, 20, ",.5"), ":4:1: found nothing between 440 and 480 nm"},
        {rows(400, 700, 20, ",1.01"), ":1:5: found \"1.01\""},
        {rows(400, 700, 20, ",-0.1"), "expected 0 to 1"},
        {rows(400, 700, 20, ",x"), ":1:5: found \"x\""},
        {rows(400, 700, 20, ""), "found 0 values, expected 1"},
        {"400,.5\n400,.5\n" + rows(420, 700, 20, ",.5"), ":2:1: found 400 nm after 400 nm"},
        {"400,.5\nblue,.5\n" + rows(420, 700, 20, ",.5"), ":2:1: found \"blue\""},
        {rows(400, 700, 20, ",nan"), "\"nan\""},
        {"0.4,.5\n" + rows(420, 700, 20, ",.5"), "expected a wavelength in nm"},  // micrometres
    };
    for (const auto& c : cases) {
        const Table table(c.text);
        const std::string said = refusal_of([&] { read_curves(table.path, 1); });
        EXPECT_NE(said.find(c.said), std::string::npos) << c.said << "\n" << said;
    }
    EXPECT_THROW(read_curves("no-such-file.csv", 1), LayoutError);
    EXPECT_THROW(read_curves("/", 1), LayoutError);
}

}  // namespace
}  // namespace rakelight
