#include "output/paper/pdf_file.h"

#include <cairo-pdf.h>

#include <memory>
#include <utility>

#include "output/paper/type.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

constexpr double kPoints_per_mm = 72 / 25.4;

}  // namespace

std::string pdf_file(std::span<const PdfSheet> sheets, const PdfHeading& heading) {
    std::string bytes;
    const auto append = [](void* to, const unsigned char* data, unsigned int count) {
        static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), count);
        return CAIRO_STATUS_SUCCESS;
    };
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_pdf_surface_create_for_stream(append, &bytes, 1, 1), cairo_surface_destroy);
    for (const auto& [entry, text] : {std::pair(CAIRO_PDF_METADATA_TITLE, heading.title),
                                      {CAIRO_PDF_METADATA_AUTHOR, heading.author},
                                      {CAIRO_PDF_METADATA_CREATOR, heading.program}})
        if (!text.empty()) cairo_pdf_surface_set_metadata(surface.get(), entry, sound(text).c_str());
    // Else cairo writes the hour.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, nullptr);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    cairo_t* c = context.get();
    for (const PdfSheet& sheet : sheets) {
        const glm::dvec2 size = sheet.size_mm * kPoints_per_mm;
        cairo_pdf_surface_set_size(surface.get(), size.x, size.y);
        cairo_save(c);
        cairo_scale(c, kPoints_per_mm, kPoints_per_mm);
        sheet.paint(c);
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
