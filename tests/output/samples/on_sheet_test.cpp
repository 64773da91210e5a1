// Places on the printed sheet of marks: a table with the sheet, chart and samples is seen in perspective by a
// simulated camera, and read once by millimetres on the sheet and once by pixels that the camera's own matrix
// tells. Without the component that finds marks what needs it is skipped.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/marks/mark_sheet.h"
#include "output/system/part_program.h"
#include "tests/support/photographed_sheet.h"
#include "tests/support/run_program.h"
#include "tests/support/simulated_picture.h"

namespace rakelight {
namespace {

using namespace test;
using Json = nlohmann::json;

#define NEEDS_FINDER \
    if (!find_part("find-marks")) GTEST_SKIP() << "libopencv-contrib-dev was not there"

struct Box {
    double left, top, width, height;

    std::array<glm::dvec2, 4> corners() const { return rectangle(left, top, width, height); }
};

constexpr Box kChart{10, 10, 108, 72}, kWhiteCard{130, 10, 25, 25}, kBlackCard{160, 10, 25, 25},
    kOverWhite{130, 45, 25, 25}, kOverBlack{160, 45, 25, 25};
constexpr std::array<Box, 6> kBarePaper{{{4, 215, 40, 14},
                                         {60, 215, 40, 14},
                                         {120, 215, 40, 14},
                                         {188, 20, 7, 40},
                                         {188, 90, 7, 40},
                                         {188, 150, 7, 40}}};
constexpr std::array<std::size_t, 11> kSamples{3, 11, 19, 27, 35, 43, 51, 59, 67, 75, 91};

Box place(std::size_t i) {
    return {10 + 45.0 * static_cast<double>(i % 4), 95 + 39.0 * static_cast<double>(i / 4), 26, 26};
}

Box within(const Box& b) {
    return {b.left + 3, b.top + 3, b.width - 6, b.height - 6};
}

/// The A4 sheet with all that lies on it. Its own paper is the white sheet.
struct Table {
    SheetShot shot{{1120, 1400}, 4, 20, -9};
    std::vector<int> covered;  ///< marks that something lies on
    bool bare = false;         ///< no sheet under it

    /// From millimetres off the frame's corner.
    std::array<glm::dvec2, 4> seen(const std::array<glm::dvec2, 4>& mm) const {
        const MarkSheet& sheet = mark_sheets()[0];
        std::array<glm::dvec2, 4> px;
        for (std::size_t i = 0; i < 4; ++i)
            px[i] = through(seen_by(shot, sheet.paper.size_mm), sheet.frame_at_mm + mm[i]);
        return px;
    }
    std::array<glm::dvec2, 4> seen(const Box& box) const { return seen(box.corners()); }

    void add_mark(SimulatedPicture& picture, const PlacedMark& mark) const {
        const glm::dvec2 at = mark.at_mm - mark_sheets()[0].frame_at_mm;
        const double square = mark.size_mm / (kMarkSquares + 2);
        picture.add(seen(rectangle(at.x, at.y, mark.size_mm, mark.size_mm)), SimulatedPicture::grey(0.04));
        for (int i = 0; i < kMarkSquares * kMarkSquares; ++i) {
            const int column = i % kMarkSquares, row = i / kMarkSquares;
            if (white_square(mark.number, column, row))
                picture.add(
                    seen(rectangle(at.x + (column + 1) * square, at.y + (row + 1) * square, square, square)),
                    SimulatedPicture::grey(0.8));
        }
    }
    void write(const std::filesystem::path& path) const {
        const MarkSheet& sheet = mark_sheets()[0];
        SimulatedPicture picture;
        picture.size = shot.size_px;
        picture.fall = 0.15;
        picture.blur_px = 1;
        picture.pixels.eight_bits = path.extension() != ".exr";
        const glm::dvec2 low = -sheet.frame_at_mm, size = sheet.paper.size_mm;
        picture.add(seen(rectangle(low.x, low.y, size.x, size.y)), SimulatedPicture::grey(0.8));
        for (const PlacedMark& mark : sheet.marks)
            if (!bare && std::find(covered.begin(), covered.end(), mark.number) == covered.end())
                add_mark(picture, mark);
        picture.add_chart(seen(kChart));
        const std::vector<Spectrum> all = evaluation_samples();
        for (std::size_t i = 0; i < kSamples.size(); ++i) picture.add(seen(place(i)), all[kSamples[i]]);
        for (const auto& [box, grey] : {std::pair(kWhiteCard, 0.85), std::pair(kBlackCard, 0.045),
                                        std::pair(kOverWhite, 0.5), std::pair(kOverBlack, 0.13)})
            picture.add(seen(box), SimulatedPicture::grey(grey));
        picture.write(path);
    }
    /// The largest upright rectangle in what the camera sees of a box.
    Box upright(const Box& box) const {
        const auto c = seen(box);
        const double left = std::max(c[0].x, c[3].x), top = std::max(c[0].y, c[1].y);
        return {left, top, std::min(c[1].x, c[2].x) - left, std::min(c[2].y, c[3].y) - top};
    }
};

Table small_table() {
    Table table;
    table.shot.size_px /= 2;
    table.shot.px_per_mm /= 2;
    return table;
}

/// `where(box)`: the rectangle that is typed.
template <class Where>
std::string said(const std::string& picture, const std::string& head, const std::array<glm::dvec2, 4>& chart,
                 Where where) {
    const auto text = [&](const Box& box) {
        const Box b = where(box);
        return fmt::format("[{:.3f}, {:.3f}, {:.3f}, {:.3f}]", b.left, b.top, b.width, b.height);
    };
    std::string corners, paper;
    for (const glm::dvec2& c : chart)
        corners += fmt::format("{}[{:.3f}, {:.3f}]", corners.empty() ? "" : ", ", c.x, c.y);
    for (const Box& box : kBarePaper) paper += (paper.empty() ? "" : ", ") + text(box);
    std::string yaml = fmt::format(
        "date: 2026-11-27\nphotographs:\n  - picture: {}\n{}    chart: {{corners: [{}]}}\n    white "
        "sheet: [{}]\n"
        "    white card: {}\n    black card: {}\n    samples:\n"
        "      - {{name: lagoon, rectangle: {}, over: white}}\n      - {{name: lagoon, rectangle: {}, over: "
        "black}}\n",
        picture, head, corners, paper, text(within(kWhiteCard)), text(within(kBlackCard)),
        text(within(kOverWhite)), text(within(kOverBlack)));
    for (std::size_t i = 0; i < kSamples.size(); ++i)
        yaml += fmt::format("      - {{name: s{}, rectangle: {}}}\n", i, text(within(place(i))));
    yaml += "samples:\n  lagoon: {kind: glass, thickness: 3 mm}\n";
    for (std::size_t i = 0; i < kSamples.size(); ++i) yaml += fmt::format("  s{}: {{kind: stone}}\n", i);
    return yaml;
}

std::string by_sheet(const std::string& picture = "table.png") {
    return said(picture, "    places: on the sheet\n", kChart.corners(), [](const Box& b) { return b; });
}

Json read(const Folder& folder, const std::string& name, const std::string& yaml) {
    folder.write(name + ".yaml", yaml);
    const Outcome o = run_in(folder, "samples " + name + ".yaml");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.err, "");
    return o.code == 0 ? Json::parse(bytes_of(folder / ("renders/" + name + "/samples.json"))) : Json();
}

/// CIEDE2000 between looks of the same sample in two readings, at most, of all lights.
double most_apart(const Json& a, const Json& b) {
    double most = 0;
    for (std::size_t i = 0; i < a["samples"].size(); ++i)
        for (std::size_t k = 0; k < a["samples"][i]["looks"].size(); ++k)
            for (const auto& [light, lab] : a["samples"][i]["looks"][k]["lab"].items()) {
                const auto other = b["samples"][i]["looks"][k]["lab"][light].get<std::array<double, 3>>();
                const auto one = lab.get<std::array<double, 3>>();
                most = std::max(most, ciede2000({one[0], one[1], one[2]}, {other[0], other[1], other[2]}));
            }
    return most;
}

/// The opaque samples are those that lie there: as close as the camera's three channels allow, which is what
/// command_samples_test.cpp asks of pixels.
void expect_true_colours(const Json& json) {
    const std::vector<Spectrum> truth = evaluation_samples();
    std::vector<double> off;
    for (std::size_t i = 0; i < kSamples.size(); ++i) {
        SampledSpectrum found;
        for (int b = 0; b < kBandCount; ++b)
            found[b] = json["samples"][i + 1]["looks"][0]["reflectance_seen"][static_cast<std::size_t>(b)];
        off.push_back(colour_off("D65", found, truth[kSamples[i]]));
    }
    EXPECT_LE(quantile(off, 0.5), 1.2);
    EXPECT_LE(quantile(off, 0.9), 2.6);
}

TEST(SamplesOnTheSheet, AreThoseOfTheirPixels) {
    NEEDS_FINDER;
    const Folder folder;
    const Table table;
    table.write(folder / "table.png");
    const Json sheet = read(folder, "sheet", by_sheet());
    const Json pixels =
        read(folder, "pixels",
             said("table.png", "", table.seen(kChart), [&](const Box& b) { return table.upright(b); }));
    ASSERT_EQ(sheet["samples"].size(), kSamples.size() + 1);
    EXPECT_LT(most_apart(sheet, pixels), 0.5);
    expect_true_colours(sheet);
    EXPECT_LT(sheet["photographs"][0]["sheet_misfit_mm"], 0.4);  // a pixel and a half: its edges are jagged
    EXPECT_TRUE(pixels["photographs"][0]["sheet_misfit_mm"].is_null());
    for (std::size_t i = 0; i < 4; ++i) {
        const Json& found = sheet["photographs"][0]["chart_corners_px"][i];
        EXPECT_LT(glm::distance(glm::dvec2(found[0], found[1]), table.seen(kChart)[i]), 0.5) << i;
    }
}

TEST(SamplesOnTheSheet, AreFoundInLinearLightTurnedAndByThreeMarks) {
    NEEDS_FINDER;
    const Folder folder;
    Table table;
    table.shot = {{1400, 1500}, 3.8, -20, 8, 200};
    table.covered = {1};
    table.write(folder / "table.exr");
    expect_true_colours(read(folder, "sheet", by_sheet("table.exr")));
}

TEST(SamplesOnTheSheet, WhatCannotBeReadIsRefusedWithItsPlace) {
    NEEDS_FINDER;
    const Folder folder;
    Table table = small_table();
    table.write(folder / "table.png");
    const auto refused = [&](const std::string& from, const std::string& to, const std::string& part) {
        std::string text = by_sheet();
        const std::size_t at = text.find(from);
        ASSERT_NE(at, std::string::npos) << from;
        folder.write("mine.yaml", text.replace(at, from.size(), to));
        expect_refused(folder, "samples mine.yaml", part);
        EXPECT_FALSE(std::filesystem::exists(folder / "renders")) << to;
    };
    refused("[13.000, 98.000,", "[250, 98,",
            "photographs[1].samples[3].rectangle: found a sample from 250, 98 to 270, 118 mm on the sheet, "
            "expected it within the picture of 560 x 700 pixels");
    refused("[4.000, 215.000,", "[-1000, 215,",
            "photographs[1].white sheet: found a white sheet from -1000, 215");
    refused("white card: [133.000", "white card: [4000",
            "photographs[1].white card: found the white card from 4000");
    refused("[10.000, 10.000]", "[-100, 10]",
            "photographs[1].chart: found a corner at -100, 10 mm on the sheet");
    refused("[13.000, 98.000, 20.000, 20.000]", "[13, 98, 20, 0.5]",
            "rectangle: found 20 x 0.5 mm, expected left");
    refused("[13.000, 98.000, 20.000, 20.000]", "[13, 98, 1, 1 lb]", "rectangle: ");
    refused("on the sheet", "on a sheet",
            "mine.yaml:4:13: photographs[1].places: found \"on a sheet\", expected one of in pixels, on the "
            "sheet; "
            "did you mean on the sheet?");
    const std::string places = "mine.yaml:4:13: photographs[1].places: ";
    table.covered = {0, 2};
    table.write(folder / "table.png");
    refused("date", "date", places + "found 2 of the four marks of the printed sheet");
    table.bare = true;
    table.write(folder / "table.png");
    refused("date", "date", places + "found no marks of the printed sheet in the picture");
}

// A copy of the program with no parts beside it.
TEST(SamplesOnTheSheet, WithoutItsPartThePackageIsNamed) {
    const Folder folder;
    Table table = small_table();
    table.write(folder / "table.png");
    folder.write("mine.yaml", by_sheet());
    std::filesystem::copy_file(RAKELIGHT_PROGRAM, folder / "alone");
    const std::string command =
        fmt::format("cd '{}' && ./alone samples mine.yaml 2>said", folder.path().string());
    EXPECT_EQ(WEXITSTATUS(std::system(command.c_str())), 2);
    const std::string text = bytes_of(folder / "said");
    EXPECT_TRUE(holds(text, "mine.yaml:4:13: photographs[1].places: ")) << text;
    EXPECT_TRUE(holds(text, "libopencv-contrib-dev")) << text;
}

}  // namespace
}  // namespace rakelight
