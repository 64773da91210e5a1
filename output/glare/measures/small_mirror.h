// A laid piece as a small mirror: what an eye must know of its face to tell whether it throws a lamp there.
// The face is a plane, bulged evenly and waved at random about it, with a rounded edge. Figures are taken
// from the very relief that is traced (relief.h), so that the two agree without a second set of rules.
#pragma once

#include <vector>

#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

struct SmallMirror {
    glm::dvec3 at_mm{};           ///< middle of the face, panel coordinates
    glm::dvec2 slope{};           ///< mean slope of the face along x and y
    double bulge_per_mm = 0;      ///< by how much the slope falls towards the rim; hollow faces below 0
    double half_mm = 0;           ///< half the side of a square of the piece's second moment
    double wave_slope = 0;        ///< standard deviation each way of what the face is waved by besides
    double rough_slope = 0;       ///< GGX alpha of the face
    double index = 1;             ///< of the face; 1 = mirrors nothing
    double glossy_share = 1;      ///< of the face that has this index: patches of a slag
    double area_mm2 = 0;          ///< in plan
    double edge_share = 0;        ///< plan area of the rounded edge over that of the piece
    bool round_all_over = false;  ///< a lump: slopes every way, as a ball
    double body = 0;              ///< reflectance for daylight of what lies below the face, face on
    double body_round = 0;        ///< the same in the mean over its neighbourhood
    std::uint32_t field = 0;
};

/// One a piece, in order. `neighbourhood_mm`: how far about a piece its surroundings reach, for `body_round`,
/// which is at least a twentieth of the panel's mean: an eye adapted to the panel sees no deeper black.
std::vector<SmallMirror> small_mirrors(const Layout& layout, const Laying& laying, double neighbourhood_mm);

}  // namespace rakelight
