#include "output/paper/tracing_pdf.h"

#include "output/paper/painter.h"
#include "output/paper/pdf_file.h"

namespace rakelight {

std::string tracings_pdf(std::span<const Tracing> pages, const std::string& title) {
    std::vector<PdfSheet> sheets;
    for (const Tracing& page : pages)
        sheets.push_back({page.size_mm, [&page](cairo_t* c) {
                              for (const TracedLayer& layer : page.layers) paint(c, layer);
                          }});
    return pdf_file(sheets, {.title = title, .author = "", .program = ""});
}

}  // namespace rakelight
