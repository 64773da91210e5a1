// A PDF file (ISO 32000) through cairo, page after page. Words stay words, in an embedded font. No clock in
// it: the same pages give the same bytes.
#pragma once

#include <functional>
#include <glm/glm.hpp>
#include <span>
#include <string>

using cairo_t = struct _cairo;  // as cairo.h has it

namespace rakelight {

/// A page of its own size; `paint` is given a context whose unit is a millimetre, y down.
struct PdfSheet {
    glm::dvec2 size_mm{};
    std::function<void(cairo_t*)> paint;
};

/// What a file says of itself; empty = nothing.
struct PdfHeading {
    std::string title;
    std::string author;
    std::string program;
};

/// The bytes of the file. \throws OutputError when cairo cannot make it.
std::string pdf_file(std::span<const PdfSheet> sheets, const PdfHeading& heading);

}  // namespace rakelight
