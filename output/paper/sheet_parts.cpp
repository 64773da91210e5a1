#include "output/paper/sheet_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

void place(Print& sheet, const Print& picture, const glm::dvec2& at_mm, double px_per_mm) {
    const glm::ivec2 at(glm::round(at_mm * px_per_mm));
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            const glm::ivec2 to = at + glm::ivec2(x, y);
            if (to.x < 0 || to.y < 0 || to.x >= sheet.width || to.y >= sheet.height) continue;
            const auto from = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                                   static_cast<std::size_t>(x));
            const auto into = 3 * (static_cast<std::size_t>(to.y) * static_cast<std::size_t>(sheet.width) +
                                   static_cast<std::size_t>(to.x));
            std::copy_n(picture.rgb.begin() + static_cast<std::ptrdiff_t>(from), 3,
                        sheet.rgb.begin() + static_cast<std::ptrdiff_t>(into));
        }
}

PageLine ring(const glm::dvec2& at_mm, double radius_mm, double width_mm, const EncodedSrgb& colour) {
    PageLine line{{}, width_mm, colour};
    for (int i = 0; i <= 40; ++i) {
        const double turn = 2 * std::numbers::pi * i / 40;
        line.points_mm.push_back(at_mm + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return line;
}

void add_mark(Page& page, const glm::dvec2& at_mm, int number) {
    const EncodedSrgb dark{0.05, 0.05, 0.05}, bright{1, 0.85, 0.2};
    page.lines.push_back(ring(at_mm, 2.2, 0.9, dark));
    page.lines.push_back(ring(at_mm, 2.2, 0.4, bright));
    const std::string text = std::to_string(number);
    const glm::dvec2 at = at_mm + glm::dvec2(3, -1.4);
    // A dark disc under the figure, of rings one in the other.
    const double half = number > 9 ? 1.9 : 1.2;
    for (double r = 0.3; r < 2; r += 0.5)
        page.lines.push_back(ring(at + glm::dvec2(half, -1.1), r, 0.6, dark));
    page.texts.push_back({text, at, 3, true, Align::left, bright});
}

void add_scale(Page& page, const glm::dvec2& at_mm, double mm,
               const std::function<EncodedSrgb(double)>& colour_of) {
    constexpr int kSteps = 260;
    for (int i = 0; i < kSteps; ++i)
        page.boxes.push_back(
            {at_mm + glm::dvec2(mm * i / kSteps, 0), {mm / kSteps + 0.05, 3}, colour_of((i + 0.5) / kSteps)});
}

double add_words(Page& page, std::string_view words, const PageText& how, double mm, double line_mm) {
    PageText line = how;
    line.text = words;
    for (std::string& text : wrapped(line, mm)) {
        line.text = std::move(text);
        page.texts.push_back(line);
        line.baseline_mm.y += line_mm;
    }
    return line.baseline_mm.y;
}

}  // namespace rakelight
