// The panel as plain values. Panel coordinates: origin at the lower left corner of the substrate's front, x
// right, y up, z out of the wall, millimetres.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

struct Substrate {
    std::uint32_t material = 0;  ///< index in `Layout::stock`
    double thickness_mm = 12;
    double bed_mm = 2;  ///< thickness of the setting bed
};

struct Frame {
    std::uint32_t material = 0;  ///< index in `Layout::stock` (timber)
    double width_mm = 20;        ///< seen from the front
    double proud_mm = 6;         ///< above the usual faces of the panel
    double gap_mm = 0;           ///< shadow gap between the work and the frame
};

/// Hanging gear holds a panel this far off the wall; common practice, no published source.
inline constexpr double kWallGap_mm = 12;

/// A diptych or triptych: one drawing on several panels side by side, cut along upright lines. The drawing
/// goes on behind the gaps, as behind the bars of a window (panel_spans.h).
struct Division {
    std::vector<double> at_mm;  ///< middles of the gaps, panel coordinates, rising
    double gap_mm =
        40;  ///< between the frames, or where there are none between the panels; as `Beside` has it
    std::vector<std::string> names;  ///< of the panels, from left to right: one more than gaps
    Place place;
};

/// The panel itself: its size, what it is made on, how it hangs.
struct Panel {
    std::string name;
    double width_mm = 0;
    double height_mm = 0;
    std::uint64_t seed = 1;  ///< of the laying
    Substrate substrate;
    std::optional<Frame> frame;
    double centre_height_mm = 1450;   ///< of the panel's centre above the floor
    double lean_deg = 0;              ///< top of the panel leaning into the room
    std::optional<Division> divided;  ///< its size is then that of the whole, gaps included
};

}  // namespace rakelight
