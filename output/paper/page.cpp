#include "output/paper/page.h"

#include "output/paper/ink.h"

namespace rakelight {

namespace {

constexpr double kMeasure_px_per_mm = 100;  // fine enough that widths do not depend on pixels

Lettering lettering(const PageText& text, double px_per_mm) {
    return {text.size_mm * px_per_mm, text.bold, text.align, text.colour};
}

void fill(Print& print, const PixelBox& box, const EncodedSrgb& colour) {
    const glm::ivec2 first = glm::max(box.at_px, glm::ivec2(0));
    const glm::ivec2 end = glm::min(box.at_px + box.size_px, glm::ivec2(print.width, print.height));
    for (int y = first.y; y < end.y; ++y)
        for (int x = first.x; x < end.x; ++x) {
            float* pixel =
                &print.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(print.width) +
                                static_cast<std::size_t>(x))];
            pixel[0] = static_cast<float>(colour.r);
            pixel[1] = static_cast<float>(colour.g);
            pixel[2] = static_cast<float>(colour.b);
        }
}

void stroke(Print& print, const PageLine& line, double px_per_mm) {
    if (line.points_mm.empty()) return;
    glm::dvec2 low = line.points_mm[0], high = low;
    for (const glm::dvec2& p : line.points_mm) low = glm::min(low, p), high = glm::max(high, p);
    ink(print, (low - line.width_mm) * px_per_mm, (high + line.width_mm) * px_per_mm, line.colour,
        [&](cairo_t* c) {
            cairo_set_line_width(c, line.width_mm * px_per_mm);
            cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
            for (const glm::dvec2& p : line.points_mm) cairo_line_to(c, p.x * px_per_mm, p.y * px_per_mm);
            cairo_stroke(c);
        });
}

}  // namespace

PixelBox pixels_of(const PageBox& box, double px_per_mm) {
    const glm::ivec2 first(glm::round(box.at_mm * px_per_mm));
    return {first, glm::ivec2(glm::round((box.at_mm + box.size_mm) * px_per_mm)) - first};
}

double width_mm(const PageText& text) {
    return text_width_px(text.text, lettering(text, kMeasure_px_per_mm)) / kMeasure_px_per_mm;
}

Print print_page(const Page& page, double px_per_mm) {
    Print print;
    const PixelBox all = pixels_of({{0, 0}, page.size_mm, page.paper}, px_per_mm);
    print.width = all.size_px.x;
    print.height = all.size_px.y;
    print.rgb.resize(3 * static_cast<std::size_t>(print.width) * static_cast<std::size_t>(print.height));
    fill(print, all, page.paper);
    print_over(print, page, px_per_mm);
    return print;
}

void print_over(Print& print, const Page& page, double px_per_mm) {
    for (const PageBox& box : page.boxes) fill(print, pixels_of(box, px_per_mm), box.colour);
    for (const PageLine& line : page.lines) stroke(print, line, px_per_mm);
    for (const PageText& text : page.texts)
        write_text(print, text.text, text.baseline_mm * px_per_mm, lettering(text, px_per_mm));
}

}  // namespace rakelight
