// The font of all words on sheets, for files that draw with cairo themselves.
#pragma once

#include <cairo.h>

#include <string>
#include <string_view>

#include "output/paper/lettering.h"

namespace rakelight {

/// The text as cairo will accept it: a string that ends where it should, in sound UTF-8.
std::string sound(std::string_view text);

/// Sets font and size; sizes are in the context's own units.
void choose(cairo_t* context, const Lettering& how);

}  // namespace rakelight
