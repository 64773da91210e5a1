#include "output/paper/pdf_pages.h"

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <cmath>

#include "output/paper/painter.h"
#include "output/paper/pdf_file.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

constexpr int kJpegQuality = 93;

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

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
void paint(cairo_t* c, const PlacedPrint& placed) {
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

void paint(cairo_t* c, const PdfPage& p) {
    paint(c, PageBox{{0, 0}, p.page.size_mm, p.page.paper});
    for (const PlacedPrint& print : p.prints) paint(c, print);
    paint(c, p.page);
}

}  // namespace

glm::dvec2 fitted_mm(const Print& print, const glm::dvec2& box_mm) {
    const double scale = std::min(box_mm.x / print.width, box_mm.y / print.height);
    return scale * glm::dvec2(print.width, print.height);
}

void write_pdf(const std::filesystem::path& path, const std::vector<PdfPage>& pages, const std::string& title,
               const std::string& author, const std::string& program) {
    std::vector<PdfSheet> sheets;
    for (const PdfPage& page : pages)
        sheets.push_back({page.page.size_mm, [&page](cairo_t* c) { paint(c, page); }});
    write_file(path, pdf_file(sheets, {title, author, program}));
}

}  // namespace rakelight
