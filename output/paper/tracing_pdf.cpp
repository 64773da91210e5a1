#include "output/paper/tracing_pdf.h"

#include <cairo-pdf.h>

#include <memory>

#include "output/paper/lettering_cairo.h"
#include "output/paper/tracing_cairo.h"
#include "output/system/errors.h"

namespace rakelight {

std::string tracings_pdf(std::span<const Tracing> pages, const std::string& title) {
    std::string bytes;
    const auto append = [](void* to, const unsigned char* data, unsigned int count) {
        static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), count);
        return CAIRO_STATUS_SUCCESS;
    };
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_pdf_surface_create_for_stream(append, &bytes, 1, 1), cairo_surface_destroy);
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, sound(title).c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, nullptr);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    cairo_t* c = context.get();
    for (const Tracing& page : pages) {
        const glm::dvec2 size = page.size_mm * kPoints_per_mm;
        cairo_pdf_surface_set_size(surface.get(), size.x, size.y);
        cairo_save(c);
        cairo_scale(c, kPoints_per_mm, kPoints_per_mm);
        for (const TracedLayer& layer : page.layers) draw_layer(c, layer);
        cairo_restore(c);
        cairo_show_page(c);
    }
    cairo_surface_finish(surface.get());
    const cairo_status_t status = cairo_status(c) ? cairo_status(c) : cairo_surface_status(surface.get());
    if (status != CAIRO_STATUS_SUCCESS)
        throw OutputError(std::string("a PDF could not be made: ") + cairo_status_to_string(status));
    return bytes;
}

}  // namespace rakelight
