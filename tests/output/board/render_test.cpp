#include "output/board/render.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <numeric>

#include "output/board/json.h"
#include "output/board/section.h"
#include "output/board/sheet.h"
#include "output/system/errors.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

std::string work(const std::string& board) {
    return "panel: {name: pool, size: [60, 60]}\n"
           "stock:\n"
           "  harbour: {kind: glass, thickness: 3, transmittance at 3 mm: [[400, 0.55], [450, 0.72], [500, "
           "0.42],\n"
           "    [550, 0.16], [600, 0.07], [650, 0.08], [700, 0.2]]}\n"
           "tints: {white-too: {like: white}}\n"
           "fields: [{name: sea, opus: regulatum, piece: 9, joint: 1.5, mix: harbour, bed: white, grout: "
           "mid-grey}]\n"
           "lamps:\n"
           "  - {name: left, at: [-600, 2900, 900], aim: [0, 1450, 0], lumen: 500}\n"
           "  - {name: right, at: [600, 2900, 900], aim: [0, 1450, 0], lumen: 300, temperature: 4000}\n"
           "board:\n"
           "  test piece: {field: sea, size: 32}\n"
           "  pixels: 64\n"
           "  grain: 0.1 %\n"
           "  most samples: 64\n" +
           board;
}

Board made(const std::string& section, BoardPlan* plan_out = nullptr) {
    const std::string text = work(section);
    const Layout layout = read_layout_text(text, "b.yaml");
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    if (plan_out) *plan_out = plan;
    return render_board(layout, plan);
}

TEST(BoardRender, EqualCellsAreEqualToTheBit) {
    const Board b = made("  columns: {grout: [white, charcoal, white-too]}\n");
    EXPECT_EQ(b.work.layings, 1u);
    EXPECT_EQ(b.work.renderings, 1u);
    EXPECT_EQ(b.cells[0].print.rgb, b.cells[2].print.rgb);
    EXPECT_NE(b.cells[0].print.rgb, b.cells[1].print.rgb);
}

// What practice reports of translucent glass: a pale joint washes it out, a dark one deepens it. Of the
// pieces' own colour, what their faces mirror left out.
TEST(BoardRender, DarkJointsDeepenTheGlassAndPaleOnesWashItOut) {
    const Board b = made("  columns: {grout: [mid-grey, white, black]}\n  reference: mid-grey\n");
    const CellNumbers &grey = b.cells[0].numbers, &pale = b.cells[1].numbers, &dark = b.cells[2].numbers;
    EXPECT_EQ(grey.shift_l, 0);
    // The signs are what practice reports. How much follows from walks through blocks with real sides, which
    // side_wall_surface_test.cpp judges; the thresholds are our own, only to catch a slip.
    EXPECT_GT(pale.shift_l, 0.5);
    EXPECT_LT(pale.shift_saturation, -0.04);
    EXPECT_LT(dark.shift_l, -0.15);
    EXPECT_GT(dark.shift_saturation, 0.02);
    EXPECT_LT(dark.mean.l, pale.mean.l);
    // Three squares and two joints fit the test piece's 32 mm each way, 1 - (29 / 32)^2 = 17.9 % of its area;
    // corners of nipped pieces add a little.
    EXPECT_NEAR(grey.joint_share, 0.179, 0.03);
}

// The eye adapts to what it stands in: rows under lights a hundredfold apart print alike, as pictures of
// their own do; the cells of a row are exposed alike, so that they can be compared.
TEST(BoardRender, RowsInOtherLightAreExposedForTheirOwn) {
    BoardPlan plan;
    const Board b = made(
        "  rows:\n"
        "    - {label: bright, set: {lamps.left.lumen: 5000}, lamps: [left]}\n"
        "    - {label: dim, set: {lamps.left.lumen: 50}, lamps: [left]}\n"
        "  columns: {grout: [white, charcoal]}\n",
        &plan);
    ASSERT_TRUE(b.by_row);
    EXPECT_NEAR(b.cells[0].illuminance_lx / b.cells[2].illuminance_lx, 100, 1e-3);
    EXPECT_NEAR(b.cells[0].ev100 - b.cells[2].ev100, std::log2(100), 1e-6);
    EXPECT_EQ(b.cells[0].ev100, b.cells[1].ev100);
    const auto mean = [](const Print& p) {
        return std::accumulate(p.rgb.begin(), p.rgb.end(), 0.0) / static_cast<double>(p.rgb.size());
    };
    EXPECT_NEAR(mean(b.cells[2].print) / mean(b.cells[0].print), 1, 0.05);
    const BoardSheet sheet = make_board_sheet(b, plan, title_of(b, plan, "b.yaml", "rakelight"));
    const auto says = [&](const std::string& part) {
        return std::any_of(sheet.page.texts.begin(), sheet.page.texts.end(),
                           [&](const PageText& t) { return t.text.find(part) != std::string::npos; });
    };
    EXPECT_TRUE(says("each row is exposed"));
    EXPECT_TRUE(says(fmt::format("EV {:.1f}", b.cells[2].ev100)));
    EXPECT_FALSE(made("  rows: {joint: [1, 2]}\n  columns: {grout: [white, charcoal]}\n").by_row);
}

TEST(BoardRender, VariantsOfTheWholePanelAreCalledSo) {
    std::string text =
        work("  columns: [{label: one, set: {panel.seed: 3}}, {label: two, set: {panel.seed: 4}}]\n");
    const std::string test_piece = "test piece: {field: sea, size: 32}";
    text.replace(text.find(test_piece), test_piece.size(), "part: {at: [0, 0], size: [60, 60]}");
    const Layout layout = read_layout_text(text, "b.yaml");
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    const Board b = render_board(layout, plan);
    const BoardTitle title = title_of(b, plan, "b.yaml", "rakelight");
    EXPECT_EQ(title.part, "2 variants of the whole panel, 60 x 60 mm");
    EXPECT_FALSE(title.same_pieces);
}

TEST(BoardRender, LampsAndDistancesShareOneRendering) {
    const Board b =
        made("  rows: {lamps: [left, right]}\n  columns: [{grout: white}, {grout: white, distance: 20 m}]\n");
    EXPECT_EQ(b.work.renderings, 1u);
    // The lamps mirror each other about the panel's middle and have one beam: light goes by their lumens, 500
    // to 300. What is seen of it leans a little to the side that uneven pieces look to, and to the colour of
    // the lamp.
    EXPECT_NEAR(b.cells[0].illuminance_lx / b.cells[2].illuminance_lx, 500. / 300, 0.01);
    EXPECT_NEAR(b.cells[0].numbers.mean_xyz.y / b.cells[2].numbers.mean_xyz.y, 500. / 300, 0.1);
    EXPECT_NE(b.cells[0].print.rgb, b.cells[1].print.rgb);
    // Far away the net has gone: neighbours hardly differ.
    const auto roughness = [](const Print& p) {
        double total = 0;
        for (std::size_t i = 3; i < p.rgb.size(); ++i) total += std::abs(p.rgb[i] - p.rgb[i - 3]);
        return total;
    };
    EXPECT_LT(roughness(b.cells[1].print), 0.5 * roughness(b.cells[0].print));
}

// Light is additive: both lamps together are the sum of each alone.
TEST(BoardRender, LampsAddUp) {
    const Board b = made("  rows: [{lamps: [left]}, {lamps: [right]}, {lamps: [left, right]}]\n");
    const auto y = [&](std::size_t i) { return b.cells[i].numbers.mean_xyz.y; };
    EXPECT_NEAR(y(0) + y(1), y(2), 1e-6 * y(2));
    EXPECT_NEAR(b.cells[0].illuminance_lx + b.cells[1].illuminance_lx, b.cells[2].illuminance_lx, 1e-6);
}

TEST(BoardRender, OpenJointsAndOtherWidthsAreLaidAnew) {
    const Board b = made("  columns: [{grout: white}, {grout: none}, {joint: 3}, {bed: black}]\n");
    EXPECT_EQ(b.work.layings, 3u);
    EXPECT_GT(b.cells[2].numbers.joint_share, 1.5 * b.cells[0].numbers.joint_share);
    EXPECT_LT(b.cells[3].numbers.piece.l, b.cells[0].numbers.piece.l - 5);
    EXPECT_NEAR(b.cells[2].numbers.resolves_to_m, 2 * b.cells[0].numbers.resolves_to_m, 1e-9);
}

TEST(BoardRender, TheSheetSaysWhatTheFiguresSay) {
    BoardPlan plan;
    const Board b = made("  columns: {grout: [white, charcoal]}\n  aim: blend\n", &plan);
    const BoardTitle title = title_of(b, plan, "b.yaml", "rakelight");
    const BoardSheet sheet = make_board_sheet(b, plan, title);
    const auto words_of = [](const Page& page) {
        std::string words;
        for (const PageText& text : page.texts) words += text.text + "\n";
        return words;
    };
    const std::string pictures = words_of(sheet.page), figures = words_of(sheet.figures);
    for (const char* part :
         {"white", "charcoal", "Cured colour", "mm of the work", "1 of 2", "a test piece of 32 x 32 mm"})
        EXPECT_NE(pictures.find(part), std::string::npos) << part << "\n" << pictures;
    for (const char* part :
         {"white", "charcoal, cement; 1.5 mm", "Cured colour", "1 of 2", "joints merge beyond"})
        EXPECT_NE(figures.find(part), std::string::npos) << part << "\n" << figures;
}

// A board of so many choices, ranked or not, without a rendering: every picture an even ramp.
Board ramps(BoardPlan& plan, std::size_t rows, std::size_t columns, bool ranked, int width_px) {
    plan.width_px = width_px;
    plan.size_mm = {60, 45};
    plan.rows.assign(rows, {});
    plan.columns.assign(columns, {});
    if (ranked) plan.aim = BoardAim::blend;
    Board board;
    for (std::size_t i = 0; i < rows * columns; ++i) {
        BoardCell cell;
        cell.row = i / columns;
        cell.column = i % columns;
        cell.label = fmt::format("tint {}", i + 1);
        if (ranked) cell.numbers.rank = static_cast<int>(columns - i % columns);
        cell.print = {width_px, plan.height_px(), {}};
        for (int p = 0; p < width_px * plan.height_px(); ++p)
            cell.print.rgb.insert(cell.print.rgb.end(), 3, static_cast<float>(p % width_px) / 1000);
        board.cells.push_back(std::move(cell));
    }
    return board;
}

bool overlap(const PageBox& a, const PageBox& b) {
    return glm::all(
        glm::lessThan(glm::max(a.at_mm, b.at_mm), glm::min(a.at_mm + a.size_mm, b.at_mm + b.size_mm) - 1e-9));
}

TEST(BoardSheets, PicturesTakeTwoThirdsAndTheBestThreeAreRepeatedLarge) {
    for (const auto& [rows, columns, ranked] :
         std::vector<std::tuple<std::size_t, std::size_t, bool>>{{1, 12, true},
                                                                 {1, 12, false},
                                                                 {1, 2, true},
                                                                 {2, 3, false},
                                                                 {3, 4, true},
                                                                 {2, 6, true},
                                                                 {1, 40, true}}) {
        BoardPlan plan;
        const Board board = ramps(plan, rows, columns, ranked, 360);
        const BoardSheet sheet = make_board_sheet(board, plan, {});
        const std::string which = fmt::format("{} x {} {}", rows, columns, ranked);
        double area_mm2 = 0;
        std::vector<PageBox> all = sheet.cells;
        for (const LargeCell& each : sheet.large) all.push_back(each.box);
        for (std::size_t i = 0; i < all.size(); ++i) {
            area_mm2 += all[i].size_mm.x * all[i].size_mm.y;
            EXPECT_NEAR(all[i].size_mm.x / all[i].size_mm.y, 60 / 45.0, 1e-9);
            for (std::size_t k = 0; k < i; ++k) EXPECT_FALSE(overlap(all[i], all[k])) << which;
            EXPECT_LE(all[i].at_mm.x + all[i].size_mm.x, sheet.page.size_mm.x) << which;
            EXPECT_LE(all[i].at_mm.y + all[i].size_mm.y, sheet.page.size_mm.y) << which;
        }
        EXPECT_GE(area_mm2, 2 / 3.0 * sheet.page.size_mm.x * sheet.page.size_mm.y) << which;
        ASSERT_EQ(sheet.large.size(), ranked && columns >= 5 ? 3u : 0u) << which;
        for (std::size_t i = 0; i < sheet.large.size(); ++i) {
            EXPECT_EQ(board.cells[sheet.large[i].cell].numbers.rank, static_cast<int>(i) + 1) << which;
            EXPECT_GT(sheet.large[i].box.size_mm.x, 1.2 * sheet.cells[0].size_mm.x) << which;
        }
    }
}

TEST(BoardSheets, LinesOfFiguresKeepOffOneAnother) {
    BoardPlan plan;
    Board board = ramps(plan, 1, 12, true, 360);
    for (BoardCell& cell : board.cells) {
        cell.numbers.joint = Lab{50, 0, 0};
        cell.numbers.seen_at.resize(2);
    }
    const BoardSheet sheet = make_board_sheet(board, plan, {});
    std::vector<double> baselines;
    for (const PageText& text : sheet.figures.texts)
        if (text.align == Align::left && text.baseline_mm.x < 12 && !text.text.empty())
            baselines.push_back(text.baseline_mm.y);
    std::sort(baselines.begin(), baselines.end());
    ASSERT_GT(baselines.size(), 20u);
    for (std::size_t i = 1; i < baselines.size(); ++i) EXPECT_GT(baselines[i] - baselines[i - 1], 2.9) << i;
}

TEST(BoardSheets, APictureAsLargeAsItWasRenderedIsThereByItsPixels) {
    BoardPlan plan;
    const Board board = ramps(plan, 1, 12, false, 700);
    const BoardSheet sheet = make_board_sheet(board, plan, {});
    const Print print = print_board(sheet, board);
    const PixelBox box = pixels_of(sheet.cells[5], sheet.px_per_mm);
    ASSERT_EQ(box.size_px, glm::ivec2(700, 525));
    for (int y = 0; y < 525; y += 7)
        for (int x = 0; x < 700; ++x)
            ASSERT_EQ(
                print.rgb[3 * static_cast<std::size_t>((box.at_px.y + y) * print.width + box.at_px.x + x)],
                board.cells[5].print.rgb[3 * static_cast<std::size_t>(y * 700 + x)]);
}

}  // namespace
}  // namespace rakelight
