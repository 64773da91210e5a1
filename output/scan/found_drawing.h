// A drawing on paper understood: regions that lines enclose, neighbours sharing theirs, and guides in them.
// Lengths are mm on the paper from its lower left corner, y up.
#pragma once

#include "output/scan/faces.h"
#include "output/scan/traced_page.h"

namespace rakelight {

struct FoundGuide {
    std::string ink;
    std::vector<glm::dvec2> points_mm;
};

struct FoundRegion {
    std::vector<Ring> rings_mm;  ///< the outer one, then holes
    glm::dvec2 at_mm{};          ///< a point well within it
    std::vector<std::string> spots;
    std::vector<FoundGuide> guides;
};

struct FoundDrawing {
    glm::dvec2 size_mm{};
    double px_per_mm = 0;              ///< of the photograph
    std::vector<FoundRegion> regions;  ///< the largest first
    std::vector<Ring> closings_mm;     ///< gaps that were closed
    std::vector<Ring> loose_mm;        ///< lines too short to be guides, left out
    std::size_t specks = 0;            ///< regions too small that went to a neighbour
};

struct HowToFind {
    double gap_mm = 2;    ///< most that is closed
    double speck_mm = 3;  ///< regions smaller than a square of it go to a neighbour
};

/// A point well within an area, to half a millimetre as far from its outlines as any.
glm::dvec2 well_within(const std::vector<Ring>& rings_mm);

/// \throws std::runtime_error with what was found and expected: no lines, far too many regions or loose ends.
FoundDrawing find_drawing(const TracedPage& page, const glm::dvec2& size_mm, const HowToFind& how);

}  // namespace rakelight
