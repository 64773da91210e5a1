#include "output/marks/mark_sheet.h"

namespace rakelight {
namespace {

// Rows from the top, each from the left, the first square the highest of 25 bits.
constexpr std::array<std::uint32_t, kMarks> kBits{0x145b2bc, 0x01c06e6, 0x1af0edd, 0x10395f7,
                                                  0x1aeb524, 0x1d4082d, 0x0d3d7ec, 0x0e2146b,
                                                  0x10d6132, 0x1313fa5, 0x13cee03, 0x1a2dac0};

constexpr double kMargin_mm = 7;  // what printers leave blank, and the white that a mark needs round it
constexpr double kMark_mm = 21;
constexpr int kFirstCard = 8;

MarkSheet sheet_on(const PaperSize& paper, int first) {
    const glm::dvec2 low(kMargin_mm), high = paper.size_mm - kMargin_mm - kMark_mm;
    const double top = 1.5 * kMargin_mm + kMark_mm;
    return {paper,
            {{{first, low, kMark_mm},
              {first + 1, {high.x, low.y}, kMark_mm},
              {first + 2, high, kMark_mm},
              {first + 3, {low.x, high.y}, kMark_mm}}},
            {kMargin_mm, top},
            paper.size_mm - 2.0 * glm::dvec2(kMargin_mm, top)};
}

}  // namespace

bool white_square(int mark, int column, int row) {
    const int bit = kMarkSquares * kMarkSquares - 1 - (row * kMarkSquares + column);
    return kBits.at(static_cast<std::size_t>(mark)) >> bit & 1u;
}

std::array<glm::dvec2, 4> PlacedMark::corners_mm() const {
    return {at_mm, at_mm + glm::dvec2(size_mm, 0), at_mm + size_mm, at_mm + glm::dvec2(0, size_mm)};
}

const std::array<MarkSheet, 2>& mark_sheets() {
    static const std::array<MarkSheet, 2> sheets{sheet_on({"A4", {210, 297}}, 0),
                                                 sheet_on({"Letter", {215.9, 279.4}}, 4)};
    return sheets;
}

glm::dvec2 angle_on_card_mm(std::size_t card) {
    const double near = kCard_mm - kCardMark_mm - 2 * kCardGap_mm, far = kCard_mm - near;
    const bool left = card == 0 || card == 3, upper = card < 2;
    return {left ? far : near, upper ? far : near};
}

std::array<PlacedMark, 4> card_marks(const glm::dvec2& drawing_mm) {
    const double out = kCardGap_mm + kCardMark_mm;
    const glm::dvec2 far = drawing_mm + kCardGap_mm;
    return {{{kFirstCard, {-out, -out}, kCardMark_mm},
             {kFirstCard + 1, {far.x, -out}, kCardMark_mm},
             {kFirstCard + 2, far, kCardMark_mm},
             {kFirstCard + 3, {-out, far.y}, kCardMark_mm}}};
}

}  // namespace rakelight
