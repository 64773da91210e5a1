// How a translucent glass is to be laid to have a wanted colour: how thick, and over which bed. Thickness is
// searched on an even scale of its logarithm, and the best place refined by golden section (Kiefer 1953,
// Proc. Am. Math. Soc. 4, 502).
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/optics/material.h"

namespace rakelight {

/// A bed to lay on, by its reflectance in contact.
struct Bed {
    std::string name;
    SampledSpectrum reflectance;
};

struct LaidGlassQuestion {
    Material glass;                  ///< translucent
    std::optional<Lab> lab;          ///< wanted under `light`; without it `lightness` alone
    double lightness = 50;           ///< L*
    std::string light = "D65";       ///< a CIE illuminant
    std::vector<Bed> beds;           ///< to choose from
    std::optional<double> fixed_mm;  ///< thickness, when it is given
    double least_mm = 1, most_mm = 20;
    std::function<void()> pause = [] {};  ///< called between beds; may throw to stop
};

/// One way to lay it.
struct LaidGlass {
    std::string bed;
    double thickness_mm = 0;
    Lab lab;         ///< face-on, mirrored light left out
    double off = 0;  ///< CIEDE2000 to the wanted colour, or L* to the wanted lightness
};

/// The best of each bed, the nearest first. \throws std::invalid_argument for a glass that is opaque, a lamp
/// nobody knows, or no bed.
std::vector<LaidGlass> ways_to_lay(const LaidGlassQuestion& question);

}  // namespace rakelight
