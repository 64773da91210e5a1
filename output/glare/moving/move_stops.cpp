#include "output/glare/moving/move_stops.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

constexpr double kTrackStep_mm = 100, kAimStep_mm = 150, kLeanStep_deg = 1, kHeightStep_mm = 25;
constexpr int kMostStops = 25, kMostAims = 7, kMostHeights = 9;

int stops_for(double length, double step, int most) {
    return std::clamp(static_cast<int>(std::ceil(length / step)) + 1, length > 0 ? 2 : 1, most);
}

// Shares of a track's length: round distances from its beginning, and its end.
std::vector<double> track_stops(double length_mm) {
    if (!(length_mm > 0)) return {0};
    const double step_mm = std::max(kTrackStep_mm, 50 * std::ceil(length_mm / ((kMostStops - 1) * 50)));
    std::vector<double> stops;
    for (double at_mm = 0; at_mm < length_mm - 1; at_mm += step_mm) stops.push_back(at_mm / length_mm);
    stops.push_back(1);
    return stops;
}

std::vector<double> values_of(double now, const std::optional<glm::dvec2>& span, double step, int most) {
    std::vector<double> values{now};
    if (!span) return values;
    for (const double v : even_stops(span->x, span->y, stops_for(span->y - span->x, step, most)))
        if (std::abs(v - now) > 1e-6) values.push_back(v);
    return values;
}

}  // namespace

std::vector<LampStop> lamp_stops(const Lamp& lamp, const LampTrack& track) {
    std::vector<LampStop> stops{{lamp, 0}};
    const double length = glm::distance(track.from_mm, track.to_mm);
    const bool swept = track.aim == AimGoes::swept;
    const double aims = swept ? glm::distance(track.aim_from_mm, track.aim_to_mm) : 0;
    for (const double along : track_stops(length))
        for (const double aimed : even_stops(0, 1, stops_for(aims, kAimStep_mm, kMostAims))) {
            LampStop stop{lamp, 0};
            stop.lamp.at_mm = glm::mix(track.from_mm, track.to_mm, along);
            const glm::dvec3 by = stop.lamp.at_mm - lamp.at_mm;
            if (track.aim == AimGoes::along) stop.lamp.aim_mm += by;
            if (track.aim == AimGoes::along && stop.lamp.faces_mm) *stop.lamp.faces_mm += by;
            if (swept) stop.lamp.aim_mm = glm::mix(track.aim_from_mm, track.aim_to_mm, aimed);
            const double turned = swept ? glm::distance(stop.lamp.aim_mm, lamp.aim_mm) : 0;
            stop.effort = (glm::length(by) + turned) / 1000;
            if (stop.effort > 0.005) stops.push_back(std::move(stop));
        }
    return stops;
}

std::vector<double> lean_stops(double now_deg, const std::optional<glm::dvec2>& span_deg) {
    return values_of(now_deg, span_deg, kLeanStep_deg, kMostStops);
}

std::vector<double> height_stops(double now_mm, const std::optional<glm::dvec2>& span_mm) {
    return values_of(now_mm, span_mm, kHeightStep_mm, kMostHeights);
}

std::vector<double> even_stops(double from, double to, int count) {
    std::vector<double> stops{from};
    for (int i = 1; i < count; ++i) stops.push_back(from + (to - from) * i / (count - 1));
    return stops;
}

}  // namespace rakelight
