// Drawings as a PDF at 1:1: a page a drawing, each of its own size.
#pragma once

#include <span>
#include <string>

#include "output/paper/tracing.h"

namespace rakelight {

/// The bytes of the file. `title`: of the document. \throws OutputError when cairo cannot make it.
std::string tracings_pdf(std::span<const Tracing> pages, const std::string& title);

}  // namespace rakelight
