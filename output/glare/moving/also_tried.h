// What a lighting designer tries before lamps are rehung: a curtain or a blind on a window, lamps dimmed, the
// panel elsewhere on its wall or on another one, less gloss where it mirrors. Each alone, reckoned by closed
// form (expected_glare.h), not traced.
#pragma once

#include <string>
#include <vector>

#include "output/glare/measures/expected_glare.h"

namespace rakelight {

struct Layout;

/// One thing tried, and what is expected of it.
struct TriedAlone {
    std::string what;  ///< a few words: "a blind on west window"
    double worst = 0;  ///< glare score at the eye where it is greatest
    double lux = 0;    ///< mean over the panel, light by way of the room included
};

/// The most promising first; only what takes the worst score down by a tenth at least, at most `kMostTried`.
/// `mirrors`: of the layout's pieces; `indirect_lux` is taken to fade with the direct light. Eyes keep their
/// place in front of the panel when it goes to another wall. Arguments as of what_to_move.
std::vector<TriedAlone> also_tried(const Layout& layout, const std::vector<SmallMirror>& mirrors,
                                   const std::vector<glm::dvec3>& eyes_mm, const GlareTerms& terms,
                                   double indirect_lux);

inline constexpr std::size_t kMostTried = 8;

}  // namespace rakelight
