#include "output/marks/mark_pages.h"

#include <fmt/format.h>

namespace rakelight {
namespace {

constexpr EncodedSrgb kBlack{0, 0, 0}, kWhite{1, 1, 1}, kGrey{0.55, 0.55, 0.55};
constexpr double kFine_mm = 0.15, kFrame_mm = 0.3;

PageText words(std::string text, const glm::dvec2& baseline_mm, double size_mm = 2.6,
               Align align = Align::left) {
    return {std::move(text), baseline_mm, size_mm, false, align, kBlack};
}

/// White squares reach half over those beside and below them, so that no seam shows.
void add(Page& page, const PlacedMark& mark) {
    page.boxes.push_back({mark.at_mm, glm::dvec2(mark.size_mm), kBlack});
    const double square = mark.size_mm / (kMarkSquares + 2);
    const auto white = [&](int column, int row) {
        return column < kMarkSquares && row < kMarkSquares && white_square(mark.number, column, row);
    };
    for (int row = 0; row < kMarkSquares; ++row)
        for (int column = 0; column < kMarkSquares; ++column) {
            if (!white(column, row)) continue;
            const glm::dvec2 at = mark.at_mm + square * glm::dvec2(column + 1, row + 1);
            page.boxes.push_back({at, glm::dvec2(square), kWhite});
            if (white(column + 1, row)) page.boxes.push_back({at, {1.5 * square, square}, kWhite});
            if (white(column, row + 1)) page.boxes.push_back({at, {square, 1.5 * square}, kWhite});
        }
}

void add_line(Page& page, std::vector<glm::dvec2> points_mm, double width_mm = kFine_mm) {
    page.lines.push_back({std::move(points_mm), width_mm, kBlack});
}

void add_box(Page& page, const glm::dvec2& at, const glm::dvec2& size, double width_mm,
             const EncodedSrgb& colour) {
    page.lines.push_back(
        {{at, at + glm::dvec2(size.x, 0), at + size, at + glm::dvec2(0, size.y), at}, width_mm, colour});
}

/// Ticks from zero to `length`, every fifth and tenth a longer one.
void add_ruler(Page& page, const glm::dvec2& at, double length, double step, double up) {
    add_line(page, {at, at + glm::dvec2(length, 0)});
    const int ticks = static_cast<int>(std::lround(length / step));
    for (int i = 0; i <= ticks; ++i) {
        const double high = i % 10 == 0 ? 4 : i % 5 == 0 ? 3 : 2;
        const glm::dvec2 foot = at + glm::dvec2(i * step, 0);
        add_line(page, {foot, foot + glm::dvec2(0, up * high)});
    }
}

void add_rulers(Page& page, const MarkSheet& sheet) {
    const double left = sheet.marks[3].at_mm.x + sheet.marks[3].size_mm + 5;
    const double y = sheet.marks[3].at_mm.y + 12;
    add_ruler(page, {left, y}, 100, 1, -1);
    for (int cm = 0; cm <= 10; cm += 5)
        page.texts.push_back(words(fmt::format("{}", 10 * cm), {left + 10 * cm, y - 5}, 2.4, Align::centre));
    page.texts.push_back(words("mm", {left + 108, y - 1}, 2.4));
    add_ruler(page, {left, y}, 101.6, 2.54, 1);
    for (int inch = 0; inch <= 4; inch += 2)
        page.texts.push_back(
            words(fmt::format("{}", inch), {left + 25.4 * inch, y + 6.6}, 2.4, Align::centre));
    page.texts.push_back(words("in", {left + 108, y + 3}, 2.4));
}

void add_frame(Page& page, const MarkSheet& sheet) {
    const glm::dvec2 at = sheet.frame_at_mm, size = sheet.frame_size_mm;
    add_box(page, at, size, kFrame_mm, kGrey);
    for (double x = 10; x < size.x; x += 10)
        for (const double edge : {at.y, at.y + size.y})
            page.lines.push_back(
                {{{at.x + x, edge}, {at.x + x, edge + (edge > at.y ? -1.5 : 1.5)}}, kFine_mm, kGrey});
    for (double y = 10; y < size.y; y += 10)
        for (const double edge : {at.x, at.x + size.x})
            page.lines.push_back(
                {{{edge, at.y + size.y - y}, {edge + (edge > at.x ? -1.5 : 1.5), at.y + size.y - y}},
                 kFine_mm,
                 kGrey});
}

PdfPage sheet_page(const MarkSheet& sheet) {
    PdfPage out;
    Page& page = out.page;
    page.size_mm = sheet.paper.size_mm;
    add_frame(page, sheet);
    add_rulers(page, sheet);
    for (const PlacedMark& mark : sheet.marks) add(page, mark);
    const double left = sheet.marks[0].at_mm.x + sheet.marks[0].size_mm + 5;
    double y = sheet.marks[0].at_mm.y + 4;
    for (const std::string& line :
         {fmt::format("Sheet of marks, {}. Print at 100 %, not fitted to the page, on plain matte paper.",
                      sheet.paper.name),
          std::string("Hold a ruler to the lines below; print again where they are more than half a mm off."),
          std::string("Lay a drawing in the frame, or draw in it. Keep the sheet flat and the"),
          fmt::format("four marks in the picture. The frame is {:.6g} x {:.6g} mm, with ticks every 10 mm.",
                      sheet.frame_size_mm.x, sheet.frame_size_mm.y)}) {
        page.texts.push_back(words(line, {left, y}));
        y += 4.4;
    }
    return out;
}

constexpr std::array<const char*, 4> kCorner{"upper left", "upper right", "lower right", "lower left"};

void add_card(Page& page, std::size_t card, const glm::dvec2& at) {
    page.lines.push_back({{at, at + glm::dvec2(kCard_mm, 0), at + kCard_mm, at + glm::dvec2(0, kCard_mm), at},
                          kFine_mm,
                          kGrey});
    const glm::dvec2 angle = angle_on_card_mm(card);
    PlacedMark mark = card_marks({0, 0})[card];
    mark.at_mm += at + angle;
    add(page, mark);
    const glm::dvec2 in(card == 0 || card == 3 ? 1 : -1, card < 2 ? 1 : -1);  // to where the drawing lies
    const double flap = kCard_mm - kCardMark_mm - 2 * kCardGap_mm;
    add_line(page,
             {at + angle + glm::dvec2(in.x * flap, 0), at + angle, at + angle + glm::dvec2(0, in.y * flap)},
             kFrame_mm);
    page.texts.push_back(
        words(kCorner[card], at + angle + in * (flap / 2) + glm::dvec2(0, 0.8), 2.4, Align::centre));
}

PdfPage card_page(const MarkSheet& sheet) {
    PdfPage out;
    Page& page = out.page;
    page.size_mm = sheet.paper.size_mm;
    constexpr double kApart_mm = 12;
    const double left = (sheet.paper.size_mm.x - 2 * kCard_mm - kApart_mm) / 2, top = 60;
    double y = 20;
    for (const char* line :
         {"Corner cards, for drawings larger than a page. Cut the four cards out along the grey lines.",
          "Slip each under its corner of the drawing, up to the angle, as they stand here. Tape them and",
          "the drawing flat. Say the size of the drawing's paper in the layout: paper: [600, 450].",
          "The four cards stand in the picture whole, with the white round their marks."}) {
        page.texts.push_back(words(line, {left, y}, 3));
        y += 5.4;
    }
    for (std::size_t card = 0; card < 4; ++card) {
        const glm::dvec2 place(card == 0 || card == 3 ? 0 : 1, card < 2 ? 0 : 1);
        add_card(page, card, glm::dvec2(left, top) + (kCard_mm + kApart_mm) * place);
    }
    add_ruler(page, {left, top + 2 * kCard_mm + kApart_mm + 25}, 100, 1, -1);
    page.texts.push_back(words("100 mm", {left + 104, top + 2 * kCard_mm + kApart_mm + 25}, 2.4));
    return out;
}

}  // namespace

std::vector<PdfPage> mark_pages(const MarkSheet& sheet) {
    return {sheet_page(sheet), card_page(sheet)};
}

}  // namespace rakelight
