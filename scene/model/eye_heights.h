// How high eyes are above the floor, by who looks. Standing: Canadian Conservation Institute, Notes 2/3.
// Seated on a chair, in a wheelchair (1090 to 1295 mm in the figures of the ADA Accessibility Guidelines,
// 1991, appendix) and a child of six to ten (1000 to 1250 mm): from memory.
#pragma once

#include <array>
#include <string_view>

namespace rakelight {

struct EyeHeight {
    std::string_view who;  ///< as the layout says it
    double above_floor_mm = 0;
};

inline constexpr std::array<EyeHeight, 4> kEyeHeights{
    EyeHeight{"standing", 1600}, {"seated", 1200}, {"wheelchair", 1150}, {"child", 1100}};

/// Height of these eyes, or 0 for a word that is not in the table.
double eye_height_mm(std::string_view who);

}  // namespace rakelight
