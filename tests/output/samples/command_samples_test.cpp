// The command from end to end: pictures by a simulated camera, of samples whose spectra are known.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/samples/as_lit.h"
#include "scene/reading/stock/supplies.h"
#include "tests/support/run_program.h"
#include "tests/support/simulated_picture.h"

namespace rakelight {
namespace {

using namespace test;
using Json = nlohmann::json;

constexpr ChartCorners kChart{{{60, 60}, {500, 70}, {495, 360}, {65, 352}}};

std::string corners_text(const ChartCorners& c) {
    return fmt::format("[[{}, {}], [{}, {}], [{}, {}], [{}, {}]]", c[0].x, c[0].y, c[1].x, c[1].y, c[2].x,
                       c[2].y, c[3].x, c[3].y);
}

/// Eleven evaluation samples to the right of the chart and under it, a white sheet along two sides.
struct Board {
    SimulatedPicture picture;
    std::vector<std::size_t> which{3, 11, 19, 27, 35, 43, 51, 59, 67, 75, 91};

    explicit Board(const char* light = "D65") {
        picture.light = *find_illuminant(light);
        picture.add_chart(kChart);
        picture.add(rectangle(530, 20, 360, 30), SimulatedPicture::grey(0.8));
        picture.add(rectangle(20, 560, 870, 30), SimulatedPicture::grey(0.8));
        const std::vector<Spectrum> all = evaluation_samples();
        for (std::size_t i = 0; i < which.size(); ++i) picture.add(place(i), all[which[i]]);
    }
    static std::array<glm::dvec2, 4> place(std::size_t i) {
        const auto k = static_cast<double>(i);
        return i < 6 ? rectangle(560 + 110 * (i % 3), 80 + 130 * double(i / 3), 90, 90)
                     : rectangle(60 + 110 * (k - 6), 420, 90, 90);
    }
    std::string said(const std::vector<std::string>& files) const {
        std::string text = "date: 2026-11-27\nphotographs:\n";
        for (const std::string& file : files) {
            text += fmt::format(
                "  - picture: {}\n    chart: {{corners: {}}}\n"
                "    white sheet: [[540, 25, 340, 20], [30, 565, 850, 20]]\n    samples:\n",
                file, corners_text(kChart));
            for (std::size_t i = 0; i < which.size(); ++i)
                text += fmt::format("      - {{name: s{}, rectangle: [{}, {}, 70, 70]}}\n", i,
                                    place(i)[0].x + 10, place(i)[0].y + 10);
        }
        text += "samples:\n";
        for (std::size_t i = 0; i < which.size(); ++i) text += fmt::format("  s{}: {{kind: stone}}\n", i);
        return text;
    }
};

void expect_found(const Folder& folder, const Board& board, double median, double nine_in_ten) {
    const Outcome o = run_in(folder, "samples mine.yaml");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.err, "");
    const Supplies supplies =
        read_supplies("stock from: renders/mine/mine-stock.yaml\n", (folder / "layout.yaml").string());
    const std::vector<Spectrum> truth = evaluation_samples();
    for (const char* light : {"D65", "A", "LED-B3"}) {
        std::vector<double> off;
        for (std::size_t i = 0; i < board.which.size(); ++i) {
            const Material* m = supplies.stock.find(fmt::format("s{}", i));
            ASSERT_NE(m, nullptr);
            EXPECT_EQ(m->provenance, Provenance::photographed);
            const SampledSpectrum seen = seen_as_lit(*m, m->thickness_mm, SampledSpectrum(0), LitFrom::side);
            off.push_back(colour_off(light, seen, truth[board.which[i]]));
        }
        EXPECT_LE(quantile(off, 0.5), median) << light;
        EXPECT_LE(quantile(off, 0.9), nine_in_ten) << light;
    }
}

TEST(CommandSamples, StockFromAPictureOfEightBits) {
    const Folder folder;
    Board board;
    board.picture.fall = 0.15;
    board.picture.write(folder / "north.png");
    folder.write("mine.yaml", board.said({"north.png"}));
    expect_found(folder, board, 1.2, 2.6);
    for (const char* name :
         {"samples-1.png", "samples-2.png", "samples.pdf", "samples.json", "mine-stock.yaml"})
        EXPECT_TRUE(std::filesystem::exists(folder / (fmt::format("renders/mine/{}", name)))) << name;
    const Json json = Json::parse(bytes_of(folder / "renders/mine/samples.json"));
    EXPECT_EQ(json["samples"].size(), 11u);
    EXPECT_EQ(json["date"], "2026-11-27");
    EXPECT_EQ(json["warnings"].size(), 0u);
}

TEST(CommandSamples, StockFromALinearPicture) {
    const Folder folder;
    Board board;
    board.picture.pixels.eight_bits = false;
    board.picture.pixels.noise = 0;
    board.picture.write(folder / "north.exr");
    folder.write("mine.yaml", board.said({"north.exr"}));
    expect_found(folder, board, 1.2, 2.6);
}

// Six channels leave less open than three: two thirds of what one photograph is allowed.
TEST(CommandSamples, PicturesUnderTwoLampsAddUp) {
    const Folder folder;
    Board north, evening("A");
    north.picture.write(folder / "north.png");
    evening.picture.write(folder / "evening.png");
    folder.write("mine.yaml", north.said({"north.png", "evening.png"}));
    expect_found(folder, north, 0.8, 1.75);
    const Json json = Json::parse(bytes_of(folder / "renders/mine/samples.json"));
    EXPECT_EQ(json["samples"][0]["looks"][0]["photographs"], 2);
}

// A plate of glass laid dry on both cards, with the light from the side: its transmittance comes back. (Own
// plate against own: closing the loop; glass_pair_test.cpp judges the plate by light that walks.)
TEST(CommandSamples, GlassOverTwoCards) {
    const Folder folder;
    Board board;
    Material glass;
    glass.kind = Kind::glass;
    glass.index = 1.52f;
    GlassOfPair truth;
    truth.transmittance = bands_from_points({{400, 0.25}, {500, 0.7}, {560, 0.75}, {620, 0.45}, {700, 0.4}});
    truth.milkiness_by_band = SampledSpectrum(0.08f);
    glass = with_glass(glass, truth, 3);
    const auto curve = [](const SampledSpectrum& s) {
        std::vector<SpectralPoint> points;
        for (int b = 0; b < kBandCount; ++b) points.push_back({double(band_wavelength_nm(b)), double(s[b])});
        return spectrum_from_points(points);
    };
    board.picture.add(rectangle(690, 390, 90, 70), SimulatedPicture::grey(0.85));
    board.picture.add(rectangle(790, 390, 90, 70), SimulatedPicture::grey(0.045));
    board.picture.add(rectangle(690, 470, 90, 80),
                      curve(seen_as_lit(glass, 3, SampledSpectrum(0.85f), LitFrom::side)));
    board.picture.add(rectangle(790, 470, 90, 80),
                      curve(seen_as_lit(glass, 3, SampledSpectrum(0.045f), LitFrom::side)));
    board.picture.write(folder / "north.png");
    folder.write("mine.yaml",
                 "photographs:\n  - picture: north.png\n    chart: {corners: " + corners_text(kChart) +
                     "}\n    white sheet: [[540, 25, 340, 20], [30, 565, 850, 20]]\n"
                     "    white card: [700, 400, 70, 50]\n    black card: [800, 400, 70, 50]\n    samples:\n"
                     "      - {name: lagoon, rectangle: [700, 480, 70, 60], over: white}\n"
                     "      - {name: lagoon, rectangle: [800, 480, 70, 60], over: black}\n"
                     "samples: {lagoon: {kind: glass, thickness: 3 mm}}\n");
    const Outcome o = run_in(folder, "samples mine.yaml --into out");
    ASSERT_EQ(o.code, 0) << o.err;
    const Json found = Json::parse(bytes_of(folder / "out/mine/samples.json"))["samples"][0];
    double milkiness = 0;
    for (const double band : found["milkiness_per_mm"]) milkiness += band / kBandCount;
    EXPECT_NEAR(milkiness, 0.08, 0.015);
    // Three channels leave the bands open by some per cent, most at the ends, where no eye sees much.
    double squares = 0;
    for (int b = 0; b < kBandCount; ++b) {
        const double t = found["transmittance"][static_cast<std::size_t>(b)];
        squares += (t - truth.transmittance[b]) * (t - truth.transmittance[b]) / kBandCount;
    }
    EXPECT_LT(std::sqrt(squares), 0.1);  // of our own, only to catch a slip
    const Supplies supplies =
        read_supplies("stock from: out/mine/mine-stock.yaml\n", (folder / "layout.yaml").string());
    const Material* read = supplies.stock.find("lagoon");
    ASSERT_NE(read, nullptr);
    EXPECT_FALSE(read->opaque);
    // Over a bed of another grey and twice as thick it is still that glass.
    const SampledSpectrum seen = seen_as_lit(*read, 6, SampledSpectrum(0.5f), LitFrom::side);
    EXPECT_LT(colour_off("D65", seen, curve(seen_as_lit(glass, 6, SampledSpectrum(0.5f), LitFrom::side))), 2);
}

TEST(CommandSamples, WhatCannotBeUsedIsRefusedWithItsPlace) {
    const Folder folder;
    Board board;
    board.picture.write(folder / "north.png");
    folder.write("text.png", "no picture");
    const std::string good = board.said({"north.png"});
    const auto refused = [&](const std::string& from, const std::string& to, const std::string& part) {
        std::string text = good;
        const std::size_t at = text.find(from);
        ASSERT_NE(at, std::string::npos) << from;
        folder.write("mine.yaml", text.replace(at, from.size(), to));
        expect_refused(folder, "samples mine.yaml", part);
        EXPECT_FALSE(std::filesystem::exists(folder / "renders")) << to;
    };
    refused("north.png", "none.png", "mine.yaml:3:14: photographs[1].picture: found no file \"none.png\"");
    refused("north.png", "text.png",
            "mine.yaml:3:14: photographs[1].picture: found a file that is no picture");
    refused("[60, 60]", "[960, 60]", "photographs[1].chart: found a corner at 960, 60");
    refused(corners_text(kChart), "[[495, 360], [65, 352], [60, 60], [500, 70]]",
            "chart: the chart lies upside down");
    refused(corners_text(kChart), "[[500, 70], [60, 60], [65, 352], [495, 360]]",
            "do not go round clockwise");
    refused(corners_text(kChart), "[[560, 80], [880, 80], [880, 300], [560, 300]]",
            "photographs[1].chart: the");
    refused("570, 90", "870, 90", "photographs[1].samples[1].rectangle: found a sample from 870, 90");
    refused("570, 90", "100, 100", "found a sample on the chart");
    refused("680, 90", "600, 90", "samples[2].rectangle: found sample \"s1\" on sample \"s0\" of line 7");
    refused("name: s1,", "name: s0,", "found a second \"s0\" alone in this picture");
    refused("name: s1,", "name: t1,", "found \"t1\", expected a sample that `samples` describes");
    refused("  s1: {kind: stone}", "  s0: {kind: stone}", "samples.s0");
    refused("  s1: {kind: stone}", "  s1: {kind: stones}", "samples.s1.kind");
    refused("rectangle: [570, 90, 70, 70]}", "rectangle: [570, 90, 70, 70], over: white}",
            "found \"s0\" over a card");
    refused("    white sheet", "    light: D6\n    white sheet", "photographs[1].light: found \"D6\"");
    folder.write(
        "tide.yaml",
        "panel: {size: [100, 100]}\nfields: [{name: sea, mix: sky}]\n"
        "lamps:\n  - {name: spot, at: [0, 2500, 900], aim: [0, 1450, 0], lumen: 500, beam angle: 30}\n");
    refused(
        "    white sheet", "    light: {layout: tide.yaml, lamp: spott}\n    white sheet",
        "photographs[1].light.lamp: found \"spott\", expected a lamp of \"tide.yaml\"; did you mean spot?");
    refused("2026-11-27", "2026-13-27", "date: found \"2026-13-27\"");
    refused("photographs:", "photos:", "photos");
}

TEST(CommandSamples, GlassIsRefusedWithItsPlace) {
    const Folder folder;
    Board board;
    board.picture.add(rectangle(690, 470, 90, 80), SimulatedPicture::grey(0.2));
    board.picture.add(rectangle(790, 470, 90, 80), SimulatedPicture::grey(0.4));
    board.picture.write(folder / "north.png");
    const auto with = [&](const std::string& spots, const std::string& sample) {
        folder.write("mine.yaml",
                     "photographs:\n  - picture: north.png\n    chart: {corners: " + corners_text(kChart) +
                         "}\n    white sheet: [[540, 25, 340, 20], [30, 565, 850, 20]]\n    samples:\n" +
                         spots + "samples: {lagoon: " + sample + "}\n");
    };
    const std::string white = "      - {name: lagoon, rectangle: [700, 480, 70, 60], over: white}\n",
                      black = "      - {name: lagoon, rectangle: [800, 480, 70, 60], over: black}\n";
    with(white + black, "{kind: glass, thickness: 3}");
    expect_refused(folder, "samples mine.yaml",
                   "mine.yaml:8:11: samples.lagoon: at 400 nm the glass is brighter over black");
    with(white, "{kind: glass}");
    expect_refused(folder, "samples mine.yaml", "samples.lagoon: found no thickness");
    with(black, "{kind: glass, thickness: 3}");
    expect_refused(folder, "samples mine.yaml", "samples.lagoon: found it over black alone");
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    with(white, "{kind: glass, thickness: 3}");
    const Outcome o = run_in(folder, "samples mine.yaml");
    EXPECT_EQ(o.code, 0);
    EXPECT_TRUE(
        holds(o.err, "Warning: mine.yaml:7:11: samples.lagoon: seen over white alone: a milkiness of 0"))
        << o.err;
}

TEST(CommandSamples, AnOverexposedPictureIsRefusedAndPatchesAreNamed) {
    const Folder folder;
    Board board;
    board.picture.exposure = 1.9;
    board.picture.write(folder / "north.png");
    folder.write("mine.yaml", board.said({"north.png"}));
    expect_refused(folder, "samples mine.yaml", "the chart is overexposed, or too dark: clipped are ");
    board.picture.exposure = 1.2;
    board.picture.write(folder / "north.png");
    const Outcome o = run_in(folder, "samples mine.yaml");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.err, "overexposed, and not used: white 9.5")) << o.err;
}

TEST(CommandSamples, AHighlightOnAPatchIsNamed) {
    const Folder folder;
    Board board;
    const glm::dvec2 middle = in_picture(kChart, patch_middle(12));
    board.picture.add(rectangle(middle.x - 12, middle.y - 12, 24, 24), SimulatedPicture::grey(0.95));
    board.picture.write(folder / "north.png");
    folder.write("mine.yaml", board.said({"north.png"}));
    const Outcome o = run_in(folder, "samples mine.yaml");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.err, "by a highlight, a shadow or a corner set wrong: blue\n")) << o.err;
}

}  // namespace
}  // namespace rakelight
