// What is put before a lamp's luminous face to cut its light off, as the layout says it.
#pragma once

#include <array>
#include <optional>

namespace rakelight {

/// Four flaps hinged at the edges of the face. Left and right as seen from behind the lamp along its beam.
struct BarnDoors {
    double length_mm = 0;  ///< from hinge to edge; 0 = none
    /// left, right, top, bottom: opened so far from straight ahead (negative: over the beam). None = folded
    /// away.
    std::array<std::optional<double>, 4> open_deg;
};

/// A grid of thin black tubes over the whole face.
struct Honeycomb {
    double cell_mm = 0;  ///< diameter of a tube; 0 = none
    double depth_mm = 0;
};

/// A black tube round the beam of a round lamp.
struct Snoot {
    double length_mm = 0;  ///< 0 = none
    double width_mm = 0;   ///< diameter of its mouth
};

struct LampFittings {
    BarnDoors doors;
    Honeycomb honeycomb;
    Snoot snoot;
    bool any() const { return doors.length_mm > 0 || honeycomb.cell_mm > 0 || snoot.length_mm > 0; }
};

}  // namespace rakelight
