// Sheets and line drawings with cairo's pen, for pixels and PDF pages alike. The context's unit is to be a
// millimetre, y down.
#pragma once

#include <cairo.h>

#include "output/paper/tracing.h"

namespace rakelight {

void paint(cairo_t* context, const PageBox& box);
void paint(cairo_t* context, const PageLine& line);

/// `halo_mm`: width of the white paper left clear round the letters.
void paint(cairo_t* context, const PageText& text, double halo_mm = 0);

/// What is on the page, without its paper.
void paint(cairo_t* context, const Page& page);

void paint(cairo_t* context, const TracedLayer& layer);

}  // namespace rakelight
