// `rakelight board`, run as a person would.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "materials/colour/ciede2000.h"
#include "tests/support/pixels.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

const char* const kWork =
    "panel: {name: pool, size: [80, 60]}\n"
    "fields: [{name: sea, piece: 9, joint: 1.5, mix: {aqua: 60 %, storm-grey: 40 %}, bed: white}]\n"
    "board:\n"
    "  part: {at: [10, 10], size: [40, 30]}\n"
    "  rows: {lamps: [left spot, spots]}\n"
    "  columns: {grout: [white, sand, charcoal]}\n"
    "  pixels: 96\n"
    "  most samples: 16\n"
    "  aim: show flow\n";

TEST(CommandBoard, WritesTheSheetTheCellsAndTheNumbers) {
    const test::Folder folder;
    std::ofstream(folder / "pool.yaml") << kWork;
    const Outcome o = run_in(folder, "board pool.yaml --quiet");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto j = nlohmann::json::parse(test::bytes_of(folder / "renders/pool/board.json"));
    EXPECT_EQ(j["format"], "rakelight board");
    EXPECT_EQ(j["version"], 3);
    ASSERT_EQ(j["cells"].size(), 6u);
    EXPECT_EQ(j["shared"]["renderings"], 1);
    for (const auto& file : j["files"])
        EXPECT_TRUE(std::filesystem::exists(folder / ("renders/pool/" + file.get<std::string>()))) << file;
    const test::Pixels sheet(folder / "renders/pool/board.png");
    const test::Pixels figures(folder / "renders/pool/board-figures.png");
    int judged = 0;
    for (const auto& cell : j["cells"]) {
        const test::Pixels bare(folder / ("renders/pool/" + cell["file"].get<std::string>()));
        EXPECT_EQ(bare.width, 96);
        EXPECT_EQ(bare.height, 72);
        EXPECT_EQ(cell["width_px"], 96);
        // The cell on the sheet is the bare cell, enlarged: the same in the mean of each quarter.
        const auto& box = cell["box_px"];
        const double times = box[2].get<double>() / bare.width;
        EXPECT_GE(times, 1);
        for (int quarter = 0; quarter < 4; ++quarter) {
            const int left = quarter % 2 * 48, top = quarter / 2 * 36;
            const auto mean = [&](const test::Pixels& from, double x0, double y0, double scale) {
                double sum = 0, count = 0;
                for (int y = int(y0 + scale * (top + 2)); y < int(y0 + scale * (top + 34)); ++y)
                    for (int x = int(x0 + scale * (left + 2)); x < int(x0 + scale * (left + 46)); ++x)
                        sum += from.rgb[static_cast<std::size_t>(3 * (y * from.width + x) + 1)], count += 1;
                return sum / count;
            };
            EXPECT_NEAR(mean(sheet, box[0], box[1], times), mean(bare, 0, 0, 1), 3) << quarter;
        }
        // Patches read back as their Lab, sRGB by IEC 61966-2-1.
        for (const auto& patch : cell["patches"]) {
            if (!patch["in_srgb"].get<bool>()) continue;
            const auto& at = patch["box_px"];
            for (const double part : {0.02, 0.5, 0.98}) {
                const int x = at[0].get<int>() + static_cast<int>(part * at[2].get<int>());
                const int y = at[1].get<int>() + static_cast<int>(part * at[3].get<int>());
                const Lab seen =
                    xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes(figures.at(x, y)))), xyz_of(kD65));
                const Lab said{patch["lab"][0], patch["lab"][1], patch["lab"][2]};
                EXPECT_LT(ciede2000(seen, said), 1) << patch;
                ++judged;
            }
        }
        const auto& n = cell["numbers"];
        EXPECT_NEAR(n["contrast"]["delta_l"].get<double>(),
                    n["joint_lab"][0].get<double>() - n["piece_lab"][0].get<double>(), 1e-9);
        EXPECT_EQ(n["seen_at"].size(), 2u);
    }
    EXPECT_GT(judged, 40);
    // The surround is L* 55.
    const Lab surround = xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes(sheet.at(0, 0)))), xyz_of(kD65));
    EXPECT_NEAR(surround.l, 55, 0.5);
}

TEST(CommandBoard, TheSameLayoutGivesTheSameBytes) {
    const test::Folder folder;
    std::ofstream(folder / "pool.yaml") << kWork;
    ASSERT_EQ(run_in(folder, "board pool.yaml --quiet --into a").code, 0);
    ASSERT_EQ(run_in(folder, "board pool.yaml --quiet --into b").code, 0);
    for (const char* file : {"board.png", "board-figures.png", "board.json", "board-2-3.png"})
        EXPECT_EQ(test::bytes_of(folder / (std::string("a/pool/") + file)),
                  test::bytes_of(folder / (std::string("b/pool/") + file)))
            << file;
}

TEST(CommandBoard, WhatIsWrongIsToldBeforeAnythingIsWritten) {
    const test::Folder folder;
    std::ofstream(folder / "none.yaml") << "panel: {size: [80, 60]}\nfields: [{name: sea, mix: slate}]\n";
    std::ofstream(folder / "bad.yaml")
        << "panel: {size: [80, 60]}\nfields: [{name: sea, mix: slate}]\n"
           "board: {test piece: {size: 40}, columns: {grout: [whit, blakc]}}\n";
    test::expect_refused(folder, "board none.yaml", "none.yaml: board: found nothing");
    for (const char* command : {"board bad.yaml", "check bad.yaml"})
        for (const char* part : {"did you mean white?", "did you mean black?"})
            test::expect_refused(folder, command, part);
    EXPECT_EQ(run_in(folder, "preview bad.yaml --most-samples 1 --size 16x16 --quiet").code, 0)
        << "a mistake in a board keeps nobody from a preview";
    EXPECT_FALSE(std::filesystem::exists(folder / "renders/none"));
}

TEST(CommandBoard, AFolderThatCannotBeWrittenEndsWithThree) {
    const test::Folder folder;
    std::ofstream(folder / "pool.yaml") << kWork;
    std::ofstream(folder / "renders") << "a file where the folder should be\n";
    EXPECT_EQ(run_in(folder, "board pool.yaml --quiet").code, 3);
}

}  // namespace
}  // namespace rakelight
