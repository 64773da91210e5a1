// How far the colour of a photographed sample may be from what is taken for it, under lamps that did not
// light the photograph: CIEDE2000 to curves that the photographs leave possible.
#pragma once

#include <string>
#include <vector>

#include "materials/photograph/reflectance_estimate.h"

namespace rakelight {

struct ColourRange {
    std::string light;  ///< a CIE illuminant
    double middle = 0;  ///< half of the possible curves lie within this CIEDE2000
    double nine_in_ten = 0;
};

/// Under D65, A and LED-B3, in this order. The same estimate gives the same figures.
std::vector<ColourRange> colour_ranges(const ReflectanceEstimate& estimate);

}  // namespace rakelight
