// The printed sheet of marks as pages of a PDF.
#pragma once

#include <vector>

#include "output/marks/mark_sheet.h"
#include "output/paper/pdf_pages.h"

namespace rakelight {

/// The sheet, then its four corner cards to be cut out.
std::vector<PdfPage> mark_pages(const MarkSheet& sheet);

}  // namespace rakelight
