// A stock library moved by what a photograph showed: every material and tint that is off, with its body's
// colour changed as the photograph's differs from the picture's. What the face mirrors, thickness and all
// else stay. Of the curves that have the new colour the one nearest to the old is taken (looks.h).
#pragma once

#include <string>
#include <vector>

#include "output/compare/compared.h"

namespace rakelight {

struct Layout;
struct Laying;

/// An entry of the library, or why there is none.
struct Correction {
    std::string name;      ///< in the layout
    std::string new_name;  ///< in the library; empty = not corrected
    bool tint = false;
    double delta_e = 0;  ///< CIEDE2000 that it was off by
    double left = 0;     ///< that the new body misses the wanted colour by
    std::string why_not;
};

struct Corrected {
    std::string yaml;  ///< of a library for `stock from:`
    std::vector<Correction> entries;
};

/// Materials that are off by at least 1 CIEDE2000, just noticeable. `photo` and `picture`: names of the
/// files, for its first lines. \throws RequestError when nothing is off so far or can be corrected.
Corrected corrected_stock(const Compared& compared, const Layout& layout, const Laying& laying,
                          const std::string& photo, const std::string& picture);

}  // namespace rakelight
