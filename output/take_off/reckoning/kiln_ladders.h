// Frit that goes into the kiln for the shades of a ladder: nobody sells a shade between two glasses, it is
// cast from crushed glass of the two ends, mixed by volume (glass_stack.h).
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"
#include "output/take_off/reckoning/purchase.h"

namespace rakelight {

struct Sources;

/// One shade of a ladder.
struct LadderShade {
    std::string from, to;  ///< names of its ends
    double share = 0;      ///< of `to`, by volume
};

/// Shades of the ladders in the `stock` that a layout was read from, by name; those `like` one too.
std::map<std::string, LadderShade> ladders_in(const Sources& sources);

/// What to weigh for one shade.
struct Casting {
    std::uint32_t material = 0;  ///< index in Layout::stock
    LadderShade shade;
    double cast_mm2 = 0;  ///< that has to come out of the kiln, waste and spares included
    double from_g = 0;    ///< frit
    double to_g = 0;
};

/// Marks the purchases that are cast: they are bought as frit, in no sheets or bags.
std::vector<Casting> castings(const std::vector<Material>& stock, std::vector<Purchase>& purchases,
                              const std::map<std::string, LadderShade>& ladders);

/// Firings of a kiln whose shelf takes one pane of `pane_mm`, shades dammed off from one another on it.
int firings(const std::vector<Casting>& castings, const glm::dvec2& pane_mm);

}  // namespace rakelight
