#include "output/board/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/board/caption.h"
#include "output/paper/ink.h"

namespace rakelight {

namespace {

using namespace sheet;

constexpr double kMargin_mm = 14, kHead_mm = 34, kFoot_mm = 27;
constexpr double kGapX_mm = 8, kGapY_mm = 5;
constexpr double kRowLabel_mm = 26;
constexpr std::array kAimWords{"", "blend: least contrast first",
                               "show flow: joint and pieces farthest apart in L* first",
                               "deepen colour: most saturated glass first"};

// How cells stand: a table of rows and columns, or one row or column broken into lines.
struct Table {
    std::size_t a_line = 1, lines = 1;
    bool named_rows = false;
};

// A line of 3 to 6 that leaves few gaps, near the shape of a sheet of paper laid across.
std::size_t usual_line(std::size_t cells) {
    if (cells <= 4) return cells;
    std::size_t best = 4;
    double least = 1e9;
    for (std::size_t line = 3; line <= 6; ++line) {
        const double gaps = static_cast<double>((cells + line - 1) / line * line - cells);
        const double cost =
            gaps + 1.5 * std::abs(static_cast<double>(line) - std::sqrt(1.4 * static_cast<double>(cells)));
        if (cost < least) least = cost, best = line;
    }
    return best;
}

Table table_of(const BoardPlan& plan) {
    Table t;
    t.named_rows = plan.rows.size() > 1 && plan.columns.size() > 1;
    t.a_line = t.named_rows      ? plan.columns.size()
               : plan.a_line > 0 ? std::min(static_cast<std::size_t>(plan.a_line), plan.cells())
                                 : usual_line(plan.cells());
    t.lines = (plan.cells() + t.a_line - 1) / t.a_line;
    return t;
}

// A round length of the part that is 12 to 45 mm on the sheet.
double bar_mm(double sheet_mm_per_mm) {
    for (const double length : {200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0})
        if (length * sheet_mm_per_mm <= 45) return length;
    return 1;
}

void add_scale_bar(Page& page, double sheet_mm_per_mm, const glm::dvec2& at_mm) {
    const double real = bar_mm(sheet_mm_per_mm), length = real * sheet_mm_per_mm;
    for (int i = 0; i < 2; ++i)
        page.boxes.push_back(
            {at_mm + glm::dvec2(i * length / 2, 0), {length / 2, 1.4}, i == 0 ? kInk : kLight});
    page.texts.push_back(caption(fmt::format("{:.3g} mm of the work; printed at 254 dots an inch 1 : {:.3g}",
                                             real, 1 / sheet_mm_per_mm),
                                 at_mm + glm::dvec2(length + 2, 1.4)));
}

void add_head(Page& page, const BoardTitle& title) {
    const double room = page.size_mm.x - 2 * kMargin_mm;
    page.texts.push_back(fitted({title.title, {kMargin_mm, 19}, 8, true, Align::left, kInk}, room));
    PageText part = plain(title.part, {kMargin_mm, 25.4});
    part.size_mm = 3;
    page.texts.push_back(fitted(part, room));
    page.texts.push_back(fitted(plain(title.light, {kMargin_mm, 29.6}), room));
}

void add_foot(Page& page, const BoardTitle& title, bool less_vivid) {
    const double right = page.size_mm.x - kMargin_mm, room = page.size_mm.x - 2 * kMargin_mm;
    double y = page.size_mm.y - 15;
    page.lines.push_back({{{kMargin_mm, y - 3.4}, {right, y - 3.4}}, 0.12, kInk});
    page.texts.push_back(fitted(
        {title.whole
             ? "Cured colour, dry. Each variant is laid and lit as a whole; a real test piece decides on "
               "colour."
             : "Cured colour, dry: fresh grout looks darker. Judge a real test piece after a week, and at "
               "28 days.",
         {kMargin_mm, y},
         kText_mm,
         true,
         Align::left,
         kInk},
        room));
    std::string how =
        "Colours of joints and pieces leave out what the face mirrors; the mean is all light. ΔE: CIEDE2000. "
        "sat.: saturation in %, against the reference.";
    if (less_vivid) how += " * in truth more vivid than a screen can show.";
    page.texts.push_back(fitted(caption(how, {kMargin_mm, y + 3.6}), room));
    page.texts.push_back(
        fitted(caption(fmt::format("A rendering, not a photograph; {}{}. Built-in stock is invented data.",
                                   title.by_row ? "each row is exposed and its white set for its own light"
                                                : "one exposure and white for all cells",
                                   title.same_pieces ? ", the same pieces in each" : ""),
                       {kMargin_mm, y + 6.8}),
               room * 0.72));
    page.texts.push_back(fitted(
        caption(fmt::format("{}, {}", title.layout_file, title.program), {right, y + 6.8}, Align::right),
        room * 0.26));
}

std::string part_text(const BoardPlan& plan) {
    const std::string size = fmt::format("{:.4g} x {:.4g} mm", plan.size_mm.x, plan.size_mm.y);
    switch (plan.part) {
        case BoardPart::test_piece:
            return fmt::format("Sample board: a test piece of {}, laid as {}", size, plan.field);
        case BoardPart::part:
            if (plan.whole) return fmt::format("{} variants of the whole panel, {}", plan.cells(), size);
            return fmt::format("Sample board: {} of the panel, from {:.4g}, {:.4g} mm", size, plan.at_mm.x,
                               plan.at_mm.y);
        case BoardPart::around:
            return fmt::format("Sample board: {} and what lies round it, {}", plan.field, size);
    }
    return size;
}

// What a row lies in, and its exposure where rows differ.
std::string light_text(const Board& board, const BoardCell& cell) {
    return fmt::format("{:.{}f} lx{}", cell.illuminance_lx, cell.illuminance_lx < 10 ? 1 : 0,
                       board.by_row ? fmt::format(", EV {:.1f}", cell.ev100) : "");
}

}  // namespace

BoardTitle title_of(const Board& board, const BoardPlan& plan, const std::string& layout_file,
                    const std::string& program) {
    BoardTitle t{plan.title.empty() ? layout_file : plan.title,
                 part_text(plan),
                 {},
                 {},
                 layout_file,
                 program,
                 plan.whole,
                 board.by_row,
                 board.work.layings <= 1};
    const BoardCell& reference =
        board.cells[plan.reference_row * plan.columns.size() + plan.reference_column];
    t.aim = kAimWords[static_cast<std::size_t>(plan.aim)];
    t.light =
        fmt::format("{}, {:.0f} lx; seen from {:.3g} m straight ahead; EV {:.1f}{}; shifts are against {}",
                    reference.lamps.empty() ? "under all lamps"
                                            : fmt::format("under {}", fmt::join(reference.lamps, " + ")),
                    reference.illuminance_lx, plan.eye_mm / 1000, board.ev100,
                    board.by_row ? ", other rows by their own light" : "",
                    reference.label.empty() ? "the cell itself" : reference.label);
    if (!t.aim.empty()) t.light += "; ranked to " + t.aim;
    return t;
}

BoardSheet make_board_sheet(const Board& board, const BoardPlan& plan, const BoardTitle& title) {
    BoardSheet sheet;
    Page& page = sheet.page;
    page.paper = kPaper;
    const Table table = table_of(plan);
    const glm::dvec2 picture(plan.width_px / kBoard_px_per_mm, plan.height_px() / kBoard_px_per_mm);
    // Captions need room however small the pictures are.
    const double cell_mm = std::max(picture.x, 50.0);
    const double left = kMargin_mm + (table.named_rows ? kRowLabel_mm : 0);
    page.size_mm.x = std::max(
        left + static_cast<double>(table.a_line) * (cell_mm + kGapX_mm) - kGapX_mm + kMargin_mm, 150.0);
    page.size_mm.y =
        kHead_mm + static_cast<double>(table.lines) * (picture.y + kBoardCaption_mm + kGapY_mm) + kFoot_mm;
    add_head(page, title);
    for (std::size_t i = 0; i < board.cells.size(); ++i) {
        const auto line = static_cast<double>(i / table.a_line),
                   place = static_cast<double>(i % table.a_line);
        const glm::dvec2 at(left + place * (cell_mm + kGapX_mm),
                            kHead_mm + line * (picture.y + kBoardCaption_mm + kGapY_mm));
        sheet.cells.push_back({at, picture, kPaper});
        BoardCell cell;
        cell.label = table.named_rows ? plan.columns[board.cells[i].column].label : board.cells[i].label;
        if (board.by_row && !table.named_rows) cell.label += ", " + light_text(board, board.cells[i]);
        cell.grout = board.cells[i].grout;
        cell.filling = board.cells[i].filling;
        cell.joint_mm = board.cells[i].joint_mm;
        cell.recess_mm = board.cells[i].recess_mm;
        cell.numbers = board.cells[i].numbers;
        add_caption(sheet, cell, i, at + glm::dvec2(0, picture.y), cell_mm,
                    plan.columns.size() > 1 ? plan.columns.size() : plan.cells());
        if (table.named_rows && i % table.a_line == 0) {
            const BoardCell& first = board.cells[i];
            page.texts.push_back(fitted(
                {plan.rows[first.row].label, {kMargin_mm, at.y + 4}, kName_mm, true, Align::left, kInk},
                kRowLabel_mm - 3));
            page.texts.push_back(caption(light_text(board, first), {kMargin_mm, at.y + 8}));
        }
    }
    const bool less_vivid = std::any_of(sheet.patches.begin(), sheet.patches.end(),
                                        [](const BoardPatch& p) { return !p.in_srgb; });
    add_scale_bar(page, picture.x / plan.size_mm.x, {left, page.size_mm.y - kFoot_mm + 2});
    add_foot(page, title, less_vivid);
    return sheet;
}

Print print_board(const BoardSheet& sheet, const Board& board) {
    Print print = print_page(sheet.page, kBoard_px_per_mm);
    for (std::size_t i = 0; i < board.cells.size(); ++i) {
        const Print& picture = board.cells[i].print;
        const glm::ivec2 at = pixels_of(sheet.cells[i], kBoard_px_per_mm).at_px;
        for (int y = 0; y < picture.height; ++y)
            std::copy_n(picture.rgb.begin() + 3 * static_cast<std::ptrdiff_t>(y) * picture.width,
                        3 * picture.width,
                        print.rgb.begin() + 3 * (static_cast<std::ptrdiff_t>(at.y + y) * print.width + at.x));
    }
    return print;
}

}  // namespace rakelight
