// Pages with pictures as one PDF file. Words stay words, lines stay lines; pictures are kept as JPEG, a fine
// one.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "output/paper/page.h"

namespace rakelight {

/// A picture on a page, under its words and lines.
struct PlacedPrint {
    std::shared_ptr<const Print> print;
    glm::dvec2 at_mm{};
    glm::dvec2 size_mm{};
};

struct PdfPage {
    Page page;
    std::vector<PlacedPrint> prints;
};

/// \throws OutputError; then nothing is left. The same pages give the same bytes.
void write_pdf(const std::filesystem::path& path, const std::vector<PdfPage>& pages, const std::string& title,
               const std::string& author, const std::string& program);

/// The largest size with the print's shape within a box.
glm::dvec2 fitted_mm(const Print& print, const glm::dvec2& box_mm);

}  // namespace rakelight
