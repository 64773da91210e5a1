#include "output/board/caption.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/paper/ink.h"
#include "output/print/printed_colour.h"

namespace rakelight {

namespace {

using namespace sheet;

constexpr double kPatch_mm = 3.4, kAfterPatch_mm = 5;
constexpr double kLabColumn_mm = 8;

// A patch, its name, and its L*, a*, b* in columns at the right.
void add_colour(BoardSheet& board, std::size_t cell, const char* what, const Lab& lab, const glm::dvec2& at,
                double width_mm) {
    const PrintedColour shown = printed_colour(lab);
    const PageBox box{at + glm::dvec2(0, -2.7), {kPatch_mm, kPatch_mm}, from_bytes(shown.srgb)};
    board.figures.boxes.push_back(box);
    board.patches.push_back({cell, what, lab, shown.in_srgb, box});
    board.figures.texts.push_back(
        plain(shown.in_srgb ? what : std::string(what) + "*", at + glm::dvec2(kAfterPatch_mm, 0)));
    const std::array<double, 3> figures{lab.l, lab.a, lab.b};
    for (std::size_t i = 0; i < 3; ++i)
        board.figures.texts.push_back(
            plain(number(figures[i], 1),
                  at + glm::dvec2(width_mm - kLabColumn_mm * static_cast<double>(2 - i), 0), Align::right));
}

void add_figure(Page& page, const std::string& what, const std::string& value, const glm::dvec2& at,
                double width_mm) {
    page.texts.push_back(plain(what, at));
    page.texts.push_back(plain(value, at + glm::dvec2(width_mm, 0), Align::right));
}

std::string metres(double m) {
    return m >= kFarthest_m ? fmt::format("beyond {:.0f} m", kFarthest_m)
                            : fmt::format("{} m", number(m, m < 1 ? 2 : 1));
}

std::string signed_number(double value, int decimals) {
    const std::string text = number(value, decimals);
    return value > 0 && text.find_first_of("123456789") != std::string::npos ? "+" + text : text;
}

}  // namespace

void add_name(Page& page, const BoardCell& cell, const glm::dvec2& at_mm, double width_mm,
              std::size_t ranked) {
    const double y = at_mm.y + 4.2;
    double room = width_mm;
    if (const auto rank = cell.numbers.rank) {
        page.texts.push_back({fmt::format("{} of {}", *rank, ranked),
                              {at_mm.x + width_mm, y},
                              kText_mm,
                              *rank == 1,
                              Align::right,
                              *rank == 1 ? kLight : kInk});
        room -= rakelight::width_mm(page.texts.back()) + 2;
    }
    page.texts.push_back(fitted({cell.label, {at_mm.x, y}, kName_mm, true, Align::left, kLight}, room));
}

void add_caption(BoardSheet& board, const BoardCell& cell, std::size_t index, const glm::dvec2& at_mm,
                 double width_mm, std::size_t ranked) {
    Page& page = board.figures;
    const CellNumbers& n = cell.numbers;
    add_name(page, cell, at_mm, width_mm, ranked);
    double y = at_mm.y + 4.4;
    const auto place = [&] { return glm::dvec2(at_mm.x, y); };
    y += 3.6;
    const std::string recipe = cell.grout == "none"
                                   ? cell.filling
                                   : fmt::format("{}, {}; {:.3g} mm, {:.3g} deep", cell.grout, cell.filling,
                                                 cell.joint_mm, cell.recess_mm);
    page.texts.push_back(fitted(plain(recipe, place()), width_mm));
    y += 4.6;
    for (std::size_t i = 0; i < 3; ++i)
        page.texts.push_back(caption(
            std::array{"L*", "a*", "b*"}[i],
            {at_mm.x + width_mm - kLabColumn_mm * static_cast<double>(2 - i), y - 0.6}, Align::right));
    y += 3;
    if (n.joint) add_colour(board, index, "joint", *n.joint, place(), width_mm);
    if (n.joint) y += kLine_mm + 0.2;
    add_colour(board, index, "pieces", n.piece, place(), width_mm);
    y += kLine_mm + 0.2;
    add_colour(board, index, "mean", n.mean, place(), width_mm);
    y += kLine_mm + 0.6;
    const auto figure = [&](const std::string& what, const std::string& value) {
        add_figure(page, what, value, place(), width_mm);
        y += kLine_mm;
    };
    if (n.joint) {
        figure("joint against pieces",
               fmt::format("L* {}, {} ΔE", signed_number(n.delta_l, 1), number(n.contrast, 1)));
        figure(fmt::format("{} % joint; resolves to", number(100 * n.joint_share, 0)),
               metres(n.resolves_to_m));
        figure("joints merge beyond", n.net_fades_m > 0 ? metres(n.net_fades_m) : "anywhere");
        figure("ΔE left at 2 m, at 6 m",
               fmt::format("{}, {}", number(n.seen_at[0].ciede2000, 1), number(n.seen_at[1].ciede2000, 1)));
    }
    figure(n.glass ? "shift of the glass" : "shift of the pieces",
           fmt::format("L* {}, sat. {}", signed_number(n.shift_l, 1), signed_number(n.shift_saturation, 1)));
}

}  // namespace rakelight
