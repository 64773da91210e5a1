#include "output/paper/pdf_pages.h"

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>
#include <cairo-pdf.h>
#include <fmt/format.h>

#include <cmath>

#include "output/paper/lettering_cairo.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

constexpr double kPoints_per_mm = 72 / 25.4;
constexpr int kJpegQuality = 93;

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

std::vector<std::uint8_t> bytes_of(const Print& print) {
    std::vector<std::uint8_t> bytes(print.rgb.size());
    for (std::size_t i = 0; i < bytes.size(); ++i)
        bytes[i] = static_cast<std::uint8_t>(std::floor(std::clamp(print.rgb[i], 0.0f, 1.0f) * 255 + 0.5f));
    return bytes;
}

std::vector<unsigned char> as_jpeg(const Print& print, const std::vector<std::uint8_t>& bytes) {
    std::vector<unsigned char> jpeg;
    OIIO::Filesystem::IOVecOutput into(jpeg);
    OIIO::ImageSpec spec(print.width, print.height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("Compression", fmt::format("jpeg:{}", kJpegQuality));
    spec.attribute("jpeg:subsampling", "4:4:4");  // coloured joints are a pixel wide
    const auto out = OIIO::ImageOutput::create("jpg");
    if (!out || !out->set_ioproxy(&into) || !out->open("page.jpg", spec) ||
        !out->write_image(OIIO::TypeDesc::UINT8, bytes.data()) || !out->close())
        throw OutputError("a picture of the PDF cannot be made: " + (out ? out->geterror() : "no JPEG"));
    return jpeg;
}

// cairo wants pixels as well as the JPEG, for whoever cannot take the JPEG.
void draw(cairo_t* c, const PlacedPrint& placed) {
    const Print& print = *placed.print;
    const std::vector<std::uint8_t> bytes = bytes_of(print);
    const Surface image(cairo_image_surface_create(CAIRO_FORMAT_RGB24, print.width, print.height),
                        cairo_surface_destroy);
    unsigned char* data = cairo_image_surface_get_data(image.get());
    if (!data) throw std::bad_alloc();
    const int stride = cairo_image_surface_get_stride(image.get());
    for (int y = 0; y < print.height; ++y)
        for (int x = 0; x < print.width; ++x) {
            const std::uint8_t* p =
                &bytes[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(print.width) +
                            static_cast<std::size_t>(x))];
            reinterpret_cast<std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride)[x] =
                static_cast<std::uint32_t>(p[0]) << 16 | static_cast<std::uint32_t>(p[1]) << 8 | p[2];
        }
    cairo_surface_mark_dirty(image.get());
    auto jpeg = std::make_unique<std::vector<unsigned char>>(as_jpeg(print, bytes));
    const auto forget = [](void* kept) { delete static_cast<std::vector<unsigned char>*>(kept); };
    if (cairo_surface_set_mime_data(image.get(), CAIRO_MIME_TYPE_JPEG, jpeg->data(), jpeg->size(), forget,
                                    jpeg.get()) == CAIRO_STATUS_SUCCESS)
        jpeg.release();  // freed with the surface
    cairo_save(c);
    cairo_translate(c, placed.at_mm.x, placed.at_mm.y);
    cairo_scale(c, placed.size_mm.x / print.width, placed.size_mm.y / print.height);
    cairo_set_source_surface(c, image.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_BEST);
    cairo_paint(c);
    cairo_restore(c);
}

void take(cairo_t* c, const EncodedSrgb& colour) {
    cairo_set_source_rgb(c, colour.r, colour.g, colour.b);
}

void draw(cairo_t* c, const PdfPage& p) {
    take(c, p.page.paper);
    cairo_paint(c);
    for (const PlacedPrint& print : p.prints) draw(c, print);
    for (const PageBox& box : p.page.boxes) {
        take(c, box.colour);
        cairo_rectangle(c, box.at_mm.x, box.at_mm.y, box.size_mm.x, box.size_mm.y);
        cairo_fill(c);
    }
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    for (const PageLine& line : p.page.lines) {
        take(c, line.colour);
        cairo_set_line_width(c, line.width_mm);
        cairo_new_path(c);
        for (const glm::dvec2& at : line.points_mm) cairo_line_to(c, at.x, at.y);
        cairo_stroke(c);
    }
    for (const PageText& text : p.page.texts) {
        const double back = text.align == Align::left     ? 0
                            : text.align == Align::centre ? width_mm(text) / 2
                                                          : width_mm(text);
        choose(c, {text.size_mm, text.bold, text.align, text.colour});
        take(c, text.colour);
        cairo_move_to(c, text.baseline_mm.x - back, text.baseline_mm.y);
        cairo_show_text(c, sound(text.text).c_str());
    }
}

}  // namespace

glm::dvec2 fitted_mm(const Print& print, const glm::dvec2& box_mm) {
    const double scale = std::min(box_mm.x / print.width, box_mm.y / print.height);
    return scale * glm::dvec2(print.width, print.height);
}

void write_pdf(const std::filesystem::path& path, const std::vector<PdfPage>& pages, const std::string& title,
               const std::string& author, const std::string& program) {
    std::string bytes;
    const auto collect = [](void* into, const unsigned char* data, unsigned count) {
        static_cast<std::string*>(into)->append(reinterpret_cast<const char*>(data), count);
        return CAIRO_STATUS_SUCCESS;
    };
    {
        const Surface surface(cairo_pdf_surface_create_for_stream(collect, &bytes, 1, 1),
                              cairo_surface_destroy);
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, sound(title).c_str());
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_AUTHOR, sound(author).c_str());
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, sound(program).c_str());
        // A fixed one: the same pages are to give the same bytes.
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
        const Context context(cairo_create(surface.get()), cairo_destroy);
        for (const PdfPage& page : pages) {
            cairo_pdf_surface_set_size(surface.get(), page.page.size_mm.x * kPoints_per_mm,
                                       page.page.size_mm.y * kPoints_per_mm);
            cairo_save(context.get());
            cairo_scale(context.get(), kPoints_per_mm, kPoints_per_mm);
            draw(context.get(), page);
            cairo_restore(context.get());
            cairo_show_page(context.get());
        }
        cairo_surface_finish(surface.get());
        const cairo_status_t status = cairo_surface_status(surface.get());
        if (status != CAIRO_STATUS_SUCCESS)
            throw OutputError(
                fmt::format("cannot write {}: {}", path.string(), cairo_status_to_string(status)));
    }
    write_file(path, bytes);
}

}  // namespace rakelight
