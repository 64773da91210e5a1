#include <cmath>
#include <memory>
#include <new>

#include "output/paper/painter.h"

namespace rakelight {

Print print_tracing(const Tracing& drawing, double px_per_mm) {
    Print print;
    print.width = static_cast<int>(std::lround(drawing.size_mm.x * px_per_mm));
    print.height = static_cast<int>(std::lround(drawing.size_mm.y * px_per_mm));
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, print.width, print.height), cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();
    cairo_t* c = context.get();
    cairo_set_source_rgb(c, 1, 1, 1);
    cairo_paint(c);
    cairo_scale(c, px_per_mm, px_per_mm);
    for (const TracedLayer& layer : drawing.layers) paint(c, layer);
    cairo_surface_flush(surface.get());
    const unsigned char* data = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    print.rgb.reserve(3 * static_cast<std::size_t>(print.width) * static_cast<std::size_t>(print.height));
    for (int y = 0; y < print.height; ++y) {
        const auto* row =
            reinterpret_cast<const std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < print.width; ++x)
            for (const int shift : {16, 8, 0})
                print.rgb.push_back(static_cast<float>(row[x] >> shift & 255u) / 255);
    }
    return print;
}

}  // namespace rakelight
