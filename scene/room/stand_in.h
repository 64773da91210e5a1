// What gives a picture its scale: a plain standing figure, a bench, a chair, of true size, from simple
// solids. The figure has no face and is nobody: its proportions are those of the mean body, in shares of its
// height (Drillis and Contini 1966, "Body Segment Parameters", from memory).
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "scene/geometry/mesh.h"
#include "scene/model/room.h"

namespace rakelight {

struct Layout;

enum class StandIn { figure, bench, chair };

/// Words for them in layout files, in the order of `StandIn`.
inline const std::vector<std::string> kStandInWords{"figure", "bench", "chair"};

struct StandInPlace {
    StandIn what = StandIn::figure;
    glm::dvec2 at_mm{};    ///< of its middle on the floor: x and z of the room
    double turn_deg = 0;   ///< counter-clockwise seen from above; 0 = it faces the panel's wall
    double height_mm = 0;  ///< over all; 0 = usual_height_mm
};

/// A figure 1700 mm tall, a bench whose seat is 450 mm high, a chair 820 mm over its back; common practice,
/// no published source.
double usual_height_mm(StandIn what);

/// Width along x and depth along z when it faces the wall, over all.
glm::dvec2 footprint_mm(StandIn what, double height_mm);

/// What a solid of it is made of.
enum class StandInStuff { wood, coat, trousers, skin, hair, shoes };

struct StandInSolid {
    StandInStuff stuff = StandInStuff::wood;
    Mesh mesh;
};

/// Closed solids standing on y = 0 round the origin, facing -z, together exactly `height_mm` tall. A figure
/// stands as one who looks: its weight on one leg, the other foot a little ahead.
std::vector<StandInSolid> stand_in_solids(StandIn what, double height_mm);

/// The box that holds it, however it is turned.
Furniture box_round(const StandInPlace& place);

/// "found ..., expected ...": why it cannot stand there; empty when it can.
std::string why_no_stand_in(const StandInPlace& place, const Layout& layout);

}  // namespace rakelight
