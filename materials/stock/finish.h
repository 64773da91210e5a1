// What is done to a face after the piece is cut or the grout has cured, as a change of the material: films
// (wet, sealed, waxed, oiled, lacquered), the thin cement film that a wash leaves (hazed), roughening
// (tumbled, sandblasted), and timber left bare (raw). The optics of films are those of wetting.h; how rough
// each finish leaves a face is common practice, no published source.
#pragma once

#include <string>
#include <vector>

#include "materials/optics/material.h"

namespace rakelight {

enum class Finish { wet, sealed, waxed, hazed, brushed, tumbled, sandblasted, raw, oiled, lacquered };

/// Words of the layout file, in the order of Finish.
const std::vector<std::string>& finish_words();

/// The material with the finish on it. Films darken what has pores or a rough face and leave smooth glass and
/// resin as they are; a second finish goes over the first, but that of timber takes its place: a timber with
/// a face is taken as finished, and `raw` is what it was before. `raw` leaves all else as it is.
Material finished(Material material, Finish finish);

/// The material with `trapped` (0..1) of the light that leaves its ground caught in open pores.
/// \throws std::invalid_argument for translucent material, which has none.
Material porous(Material material, double trapped);

}  // namespace rakelight
