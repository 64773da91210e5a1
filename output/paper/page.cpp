#include "output/paper/page.h"

#include <algorithm>
#include <memory>

#include "output/paper/painter.h"

namespace rakelight {

namespace {

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

// Lays what a text or line covers within `low`..`high` over the print; what falls outside is cut off.
template <class Mark>
void ink(Print& print, const Mark& mark, const glm::dvec2& low_mm, const glm::dvec2& high_mm,
         double px_per_mm) {
    const glm::ivec2 first = glm::max(glm::ivec2(glm::floor(low_mm * px_per_mm)) - 1, glm::ivec2(0));
    const glm::ivec2 end =
        glm::min(glm::ivec2(glm::ceil(high_mm * px_per_mm)) + 1, glm::ivec2(print.width, print.height));
    const glm::ivec2 size = end - first;
    if (size.x <= 0 || size.y <= 0) return;
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_A8, size.x, size.y), cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    cairo_translate(context.get(), -first.x, -first.y);
    cairo_scale(context.get(), px_per_mm, px_per_mm);
    paint(context.get(), mark);
    cairo_surface_flush(surface.get());
    const unsigned char* cover = cairo_image_surface_get_data(surface.get());
    if (!cover) return;
    const int stride = cairo_image_surface_get_stride(surface.get());
    const float ink_rgb[3] = {static_cast<float>(mark.colour.r), static_cast<float>(mark.colour.g),
                              static_cast<float>(mark.colour.b)};
    for (int y = 0; y < size.y; ++y)
        for (int x = 0; x < size.x; ++x) {
            const float share = static_cast<float>(cover[y * stride + x]) / 255;
            if (share == 0) continue;
            float* pixel =
                &print
                     .rgb[3 * (static_cast<std::size_t>(first.y + y) * static_cast<std::size_t>(print.width) +
                               static_cast<std::size_t>(first.x + x))];
            for (int c = 0; c < 3; ++c) pixel[c] += share * (ink_rgb[c] - pixel[c]);
        }
}

void ink(Print& print, const PageLine& line, double px_per_mm) {
    if (line.points_mm.empty()) return;
    glm::dvec2 low = line.points_mm[0], high = low;
    for (const glm::dvec2& p : line.points_mm) low = glm::min(low, p), high = glm::max(high, p);
    ink(print, line, low - line.width_mm, high + line.width_mm, px_per_mm);
}

void ink(Print& print, const PageText& text, double px_per_mm) {
    const auto [low, high] = inked_mm(text);
    ink(print, text, low, high, px_per_mm);
}

}  // namespace

PixelBox pixels_of(const PageBox& box, double px_per_mm) {
    const glm::ivec2 first(glm::round(box.at_mm * px_per_mm));
    return {first, glm::ivec2(glm::round((box.at_mm + box.size_mm) * px_per_mm)) - first};
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
    for (const PageLine& line : page.lines) ink(print, line, px_per_mm);
    for (const PageText& text : page.texts) ink(print, text, px_per_mm);
}

}  // namespace rakelight
