// Ink on a print: whatever cairo can draw, laid over a small rectangle of a finished picture in one colour.
// Only for the files that draw; what they draw is declared in lettering.h and page.h.
#pragma once

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>
#include <memory>

#include "output/print/develop.h"

namespace rakelight {

/// Calls `draw(cairo_t*)`, in pixels of the print with y down, and lays what it covers within `low`..`high`
/// over `print`. What falls outside the print is cut off.
template <class Draw>
void ink(Print& print, const glm::dvec2& low, const glm::dvec2& high, const EncodedSrgb& colour,
         Draw&& draw) {
    const glm::ivec2 first = glm::max(glm::ivec2(glm::floor(low)), glm::ivec2(0));
    const glm::ivec2 end = glm::min(glm::ivec2(glm::ceil(high)), glm::ivec2(print.width, print.height));
    const glm::ivec2 size = end - first;
    if (size.x <= 0 || size.y <= 0) return;
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_A8, size.x, size.y), cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    cairo_translate(context.get(), -first.x, -first.y);
    draw(context.get());
    cairo_surface_flush(surface.get());
    const unsigned char* cover = cairo_image_surface_get_data(surface.get());
    if (!cover) return;
    const int stride = cairo_image_surface_get_stride(surface.get());
    const float ink_rgb[3] = {static_cast<float>(colour.r), static_cast<float>(colour.g),
                              static_cast<float>(colour.b)};
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

}  // namespace rakelight
