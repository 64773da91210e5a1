// The samples sheet: every sample as it was photographed, as it was understood, and as it renders, with its
// curve, its colour under three lamps and how far it may be off.
#pragma once

#include <vector>

#include "output/paper/pdf_pages.h"
#include "output/samples/understand.h"

namespace rakelight {

inline constexpr double kSamplesSheet_px_per_mm = 10;

/// Pages of A4. Cut-outs of photographs are prints on them.
std::vector<PdfPage> samples_sheet(const SamplesReport& report);

/// A page in pixels.
Print print_samples_page(const PdfPage& page);

}  // namespace rakelight
