// The words for the ways of laying, and what each means here. Glossaries differ, so `rakelight check` prints
// the definition beside the name.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace rakelight {

struct OpusWord {
    std::string_view name;
    std::string_view definition;
};

/// In the order of `Opus` (layout.h).
inline constexpr std::array<OpusWord, 9> kOpera{{
    {"regulatum", "a grid, both families of joints in line"},
    {"tessellatum", "straight rows, head joints staggered as in brickwork"},
    {"musivum", "rows that follow the guides and fill the field, born and ended as it widens and narrows"},
    {"vermiculatum", "rows along the field's own outline, close and calm, for figures"},
    {"palladianum", "irregular convex stones, one even joint, three meeting at each corner, no rows"},
    {"classicum",
     "one or more halo rows along every edge and figure, then straight rows cut to fit against them"},
    {"sectile", "the drawing itself: one piece for each drawn shape, hairline joints"},
    {"fans", "rows in arcs of one radius, bay beside bay, as a mason paves"},
    {"pebbles", "whole rounded stones along the flow, set flat or on edge, small ones in the gaps"},
}};

/// The names alone, in the same order.
std::span<const std::string> opus_words();

}  // namespace rakelight
