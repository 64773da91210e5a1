// A line drawing's layers with cairo's pen, for the files that put drawings on pixels and on PDF pages alike.
#pragma once

#include <cairo.h>

#include "output/paper/tracing.h"

namespace rakelight {

/// Draws a layer in the context's units, which are to be millimetres with y down.
void draw_layer(cairo_t* context, const TracedLayer& layer);

}  // namespace rakelight
