// A material as an entry of a stock library says it, so that a layout that takes it from there has the same
// one: what `samples` and `compare` write.
#pragma once

#include <string>

#include "materials/optics/material.h"

namespace rakelight {

/// "glass", "stone": the word of the key `kind`.
const char* kind_word(Kind kind);

/// A name as a key of YAML, in quotes.
std::string quoted_key(const std::string& name);

/// "[[400, 0.1], [420, 0.2], ..]": pairs [nm, value] of all bands.
std::string pairs_text(const SampledSpectrum& values);

/// The lines `kind` and of its body, indented by four: `reflectance`, as it is seen outside its face
/// (Saunderson 1942), or `transmittance at` its thickness, 0.5 to 100 mm, with `milkiness`.
std::string body_text(const Material& material);

/// The lines of its thickness, weight, face and unevenness, indented by four.
std::string face_text(const Material& material);

}  // namespace rakelight
