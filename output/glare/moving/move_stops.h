// Where things that may be moved can stop: round steps within their bounds, what is there now first.
#pragma once

#include <vector>

#include "output/glare/moving/what_to_move.h"
#include "scene/model/lamp.h"

namespace rakelight {

/// A place and an aim of one lamp.
struct LampStop {
    Lamp lamp;
    double effort = 0;  ///< as MoveChoice::effort
};

/// As it is, then every place of its track with every aim.
std::vector<LampStop> lamp_stops(const Lamp& lamp, const LampTrack& track);

/// As it is, then whole degrees, or steps of 25 mm, of the span.
std::vector<double> lean_stops(double now_deg, const std::optional<glm::dvec2>& span_deg);
std::vector<double> height_stops(double now_mm, const std::optional<glm::dvec2>& span_mm);

/// `count` even places from one end to the other.
std::vector<double> even_stops(double from, double to, int count);

}  // namespace rakelight
