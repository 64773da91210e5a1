#include "output/board/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/board/caption.h"
#include "output/paper/ink.h"
#include "output/print/resized.h"

namespace rakelight {

namespace {

using namespace sheet;

constexpr double kMargin_mm = 10, kHead_mm = 23, kFoot_mm = 15;
constexpr double kGapX_mm = 4, kGapY_mm = 2;
constexpr double kRowName_mm = 5;
constexpr double kNarrowest_mm = 150;  // what head and foot need
constexpr double kFiguresFoot_mm = 20, kFigures_mm = 50, kFiguresGap_mm = 8;
constexpr double kCoarsest_px_per_mm = 5;  // type can still be read
constexpr double kPictureShare = 2. / 3;   // of the sheet
constexpr std::size_t kLarge = 3, kFewestForLarge = 5;
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

void add_scale_bar(Page& page, double sheet_mm_per_mm, double px_per_mm, const glm::dvec2& at_mm) {
    const double real = bar_mm(sheet_mm_per_mm), length = real * sheet_mm_per_mm;
    for (int i = 0; i < 2; ++i)
        page.boxes.push_back(
            {at_mm + glm::dvec2(i * length / 2, 0), {length / 2, 1.4}, i == 0 ? kInk : kLight});
    page.texts.push_back(
        caption(fmt::format("{:.3g} mm of the work; printed at {:.0f} dots an inch 1 : {:.3g}", real,
                            px_per_mm * 25.4, 1 / sheet_mm_per_mm),
                at_mm + glm::dvec2(length + 2, 1.4)));
}

void add_head(Page& page, const BoardTitle& title) {
    const double room = page.size_mm.x - 2 * kMargin_mm;
    page.texts.push_back(fitted({title.title, {kMargin_mm, 12}, 6.4, true, Align::left, kInk}, room));
    PageText part = plain(title.part, {kMargin_mm, 16.6});
    part.size_mm = 2.7;
    page.texts.push_back(fitted(part, room));
    page.texts.push_back(fitted(plain(title.light, {kMargin_mm, 20.4}), room));
}

std::string how_text(const BoardTitle& title) {
    return fmt::format("A rendering, not a photograph; {}{}. Built-in stock is invented data.",
                       title.by_row ? "each row is exposed and its white set for its own light"
                                    : "one exposure and white for all cells",
                       title.same_pieces ? ", the same pieces in each" : "");
}

std::string cured_text(const BoardTitle& title) {
    return title.whole
               ? "Cured colour, dry. Each variant is laid and lit as a whole; a real test piece decides on "
                 "colour."
               : "Cured colour, dry: fresh grout looks darker. Judge a real test piece after a week, and at "
                 "28 days.";
}

// The last two lines of either sheet.
void add_foot(Page& page, const BoardTitle& title) {
    const double right = page.size_mm.x - kMargin_mm, room = page.size_mm.x - 2 * kMargin_mm;
    const double y = page.size_mm.y - 4;
    page.texts.push_back(
        fitted({cured_text(title), {kMargin_mm, y - 3.6}, kText_mm, true, Align::left, kInk}, room));
    page.texts.push_back(fitted(caption(how_text(title), {kMargin_mm, y}), room * 0.72));
    page.texts.push_back(
        fitted(caption(fmt::format("{}, {}", title.layout_file, title.program), {right, y}, Align::right),
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

namespace {

// How wide pictures are on the sheet, and what that makes of it.
struct Sizes {
    glm::dvec2 picture{}, large{}, sheet{};
    double row_mm = 0;   // from one line of pictures to the next
    double grid_mm = 0;  // where the lines begin
};

Sizes sizes_of(const BoardPlan& plan, const Table& table, std::size_t large, double width_mm) {
    Sizes s;
    const double tall = plan.height_px() / static_cast<double>(plan.width_px);
    const auto across = static_cast<double>(table.a_line), lines = static_cast<double>(table.lines);
    s.picture = {width_mm, width_mm * tall};
    s.sheet.x = std::max(2 * kMargin_mm + across * (width_mm + kGapX_mm) - kGapX_mm, kNarrowest_mm);
    s.grid_mm = kHead_mm;
    if (large > 0) {
        const auto n = static_cast<double>(large);
        const double each = (s.sheet.x - 2 * kMargin_mm - (n - 1) * kGapX_mm) / n;
        s.large = {std::min(each, 2.5 * width_mm), std::min(each, 2.5 * width_mm) * tall};
        s.grid_mm += s.large.y + kCellName_mm + kGapY_mm;
    }
    s.row_mm = s.picture.y + kCellName_mm + kGapY_mm + (table.named_rows ? kRowName_mm : 0);
    s.sheet.y = s.grid_mm + lines * s.row_mm + kFoot_mm;
    return s;
}

double picture_share(const Sizes& s, std::size_t cells, std::size_t large) {
    return (static_cast<double>(cells) * s.picture.x * s.picture.y +
            static_cast<double>(large) * s.large.x * s.large.y) /
           (s.sheet.x * s.sheet.y);
}

// As rendered, at ten pixels a millimetre; more coarsely where the pictures would be less than their share.
Sizes chosen_sizes(const BoardPlan& plan, const Table& table, std::size_t large) {
    constexpr double kMost_mm = 240;
    double width_mm = plan.width_px / kBoard_px_per_mm;
    Sizes s = sizes_of(plan, table, large, width_mm);
    while (picture_share(s, plan.cells(), large) < kPictureShare && width_mm < kMost_mm)
        s = sizes_of(plan, table, large, width_mm += 2);
    return s;
}

// Cells of the first ranks, best first.
std::vector<std::size_t> best_cells(const Board& board, const BoardPlan& plan) {
    std::vector<std::size_t> best;
    for (std::size_t i = 0; i < board.cells.size(); ++i)
        if (board.cells[i].numbers.rank &&
            (plan.columns.size() == 1 || board.cells[i].row == plan.reference_row))
            best.push_back(i);
    std::stable_sort(best.begin(), best.end(), [&](std::size_t a, std::size_t b) {
        return *board.cells[a].numbers.rank < *board.cells[b].numbers.rank;
    });
    if (best.size() < kFewestForLarge) return {};
    best.resize(kLarge);
    return best;
}

// A cell as it is named on a sheet whose rows may be named themselves.
BoardCell named_cell(const Board& board, const BoardPlan& plan, const Table& table, std::size_t i) {
    const BoardCell& from = board.cells[i];
    BoardCell cell;
    cell.label = table.named_rows ? plan.columns[from.column].label : from.label;
    if (board.by_row && !table.named_rows) cell.label += ", " + light_text(board, from);
    cell.grout = from.grout;
    cell.filling = from.filling;
    cell.joint_mm = from.joint_mm;
    cell.recess_mm = from.recess_mm;
    cell.numbers = from.numbers;
    return cell;
}

// What all cells of a row share, above it.
void add_row_name(Page& page, const Board& board, const BoardPlan& plan, std::size_t i,
                  const glm::dvec2& at) {
    const BoardCell& first = board.cells[i];
    PageText name =
        fitted({plan.rows[first.row].label, at + glm::dvec2(0, 3.6), kName_mm, true, Align::left, kInk},
               page.size_mm.x / 2);
    const double after = width_mm(name) + 3;
    page.texts.push_back(std::move(name));
    page.texts.push_back(caption(light_text(board, first), at + glm::dvec2(after, 3.6)));
}

// The sheet of figures: a cell's beside another's, in lines as the pictures have them.
void make_figures(BoardSheet& sheet, const Board& board, const BoardPlan& plan, const BoardTitle& title,
                  const Table& table, std::size_t ranked) {
    Page& page = sheet.figures;
    page.paper = kPaper;
    const double row_mm = kBoardCaption_mm + (table.named_rows ? kRowName_mm : 0);
    page.size_mm = {
        std::max(2 * kMargin_mm + static_cast<double>(table.a_line) * (kFigures_mm + kFiguresGap_mm) -
                     kFiguresGap_mm,
                 kNarrowest_mm),
        kHead_mm + static_cast<double>(table.lines) * row_mm + kFiguresFoot_mm};
    add_head(page, title);
    for (std::size_t i = 0; i < board.cells.size(); ++i) {
        glm::dvec2 at(kMargin_mm + static_cast<double>(i % table.a_line) * (kFigures_mm + kFiguresGap_mm),
                      kHead_mm + static_cast<double>(i / table.a_line) * row_mm);
        if (table.named_rows && i % table.a_line == 0) add_row_name(page, board, plan, i, at);
        if (table.named_rows) at.y += kRowName_mm;
        add_caption(sheet, named_cell(board, plan, table, i), i, at, kFigures_mm, ranked);
    }
    std::string how =
        "Colours of joints and pieces leave out what the face mirrors; the mean is all light. ΔE: CIEDE2000. "
        "sat.: saturation in %, against the reference.";
    if (std::any_of(sheet.patches.begin(), sheet.patches.end(),
                    [](const BoardPatch& p) { return !p.in_srgb; }))
        how += " * in truth more vivid than a screen can show.";
    page.texts.push_back(
        fitted(caption(how, {kMargin_mm, page.size_mm.y - 12.4}), page.size_mm.x - 2 * kMargin_mm));
    add_foot(page, title);
}

}  // namespace

BoardSheet make_board_sheet(const Board& board, const BoardPlan& plan, const BoardTitle& title) {
    BoardSheet sheet;
    Page& page = sheet.page;
    page.paper = kPaper;
    const Table table = table_of(plan);
    const std::size_t ranked = plan.columns.size() > 1 ? plan.columns.size() : plan.cells();
    const std::vector<std::size_t> best = best_cells(board, plan);
    const Sizes sizes = chosen_sizes(plan, table, best.size());
    sheet.px_per_mm = std::max(plan.width_px / sizes.picture.x, kCoarsest_px_per_mm);
    page.size_mm = sizes.sheet;
    add_head(page, title);
    for (std::size_t i = 0; i < best.size(); ++i) {
        const glm::dvec2 at(kMargin_mm + static_cast<double>(i) * (sizes.large.x + kGapX_mm), kHead_mm);
        sheet.large.push_back({best[i], {at, sizes.large, kPaper}});
        add_name(page, named_cell(board, plan, table, best[i]), at + glm::dvec2(0, sizes.large.y),
                 sizes.large.x, ranked);
    }
    for (std::size_t i = 0; i < board.cells.size(); ++i) {
        glm::dvec2 at(kMargin_mm + static_cast<double>(i % table.a_line) * (sizes.picture.x + kGapX_mm),
                      sizes.grid_mm + static_cast<double>(i / table.a_line) * sizes.row_mm);
        if (table.named_rows && i % table.a_line == 0) add_row_name(page, board, plan, i, at);
        if (table.named_rows) at.y += kRowName_mm;
        sheet.cells.push_back({at, sizes.picture, kPaper});
        add_name(page, named_cell(board, plan, table, i), at + glm::dvec2(0, sizes.picture.y),
                 sizes.picture.x, ranked);
    }
    add_scale_bar(page, sizes.picture.x / plan.size_mm.x, sheet.px_per_mm,
                  {kMargin_mm, sizes.sheet.y - kFoot_mm + 2});
    add_foot(page, title);
    make_figures(sheet, board, plan, title, table, ranked);
    return sheet;
}

namespace {

// A picture in a box of the sheet, whose size in pixels is that of the box.
void put(Print& sheet, const Print& picture, const PixelBox& box) {
    const Print fitting = resized(picture, box.size_px.x, box.size_px.y);
    for (int y = 0; y < fitting.height; ++y)
        std::copy_n(fitting.rgb.begin() + 3 * static_cast<std::ptrdiff_t>(y) * fitting.width,
                    3 * fitting.width,
                    sheet.rgb.begin() +
                        3 * (static_cast<std::ptrdiff_t>(box.at_px.y + y) * sheet.width + box.at_px.x));
}

}  // namespace

Print print_board(const BoardSheet& sheet, const Board& board) {
    Print print = print_page(sheet.page, sheet.px_per_mm);
    for (std::size_t i = 0; i < board.cells.size(); ++i)
        put(print, board.cells[i].print, pixels_of(sheet.cells[i], sheet.px_per_mm));
    for (const LargeCell& each : sheet.large)
        put(print, board.cells[each.cell].print, pixels_of(each.box, sheet.px_per_mm));
    return print;
}

Print print_figures(const BoardSheet& sheet) {
    return print_page(sheet.figures, kBoard_px_per_mm);
}

}  // namespace rakelight
