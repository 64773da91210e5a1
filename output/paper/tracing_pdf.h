// Drawings as a PDF (ISO 32000) at 1:1: a page a drawing, each of its own size. Words stay words, in an
// embedded font. No clock in it: the same drawings give the same bytes.
#pragma once

#include <span>
#include <string>

#include "output/paper/tracing.h"

namespace rakelight {

/// Points in a millimetre.
inline constexpr double kPoints_per_mm = 72 / 25.4;

/// The bytes of the file. `title`: of the document. \throws OutputError when cairo cannot make it.
std::string tracings_pdf(std::span<const Tracing> pages, const std::string& title);

}  // namespace rakelight
