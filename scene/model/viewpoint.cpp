#include "scene/model/viewpoint.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

glm::dvec3 optical_axis(const Viewpoint& view) {
    const glm::dvec3 sight = view.look_at_mm - view.eye_mm;
    switch (view.perspective) {
        case Perspective::natural:
            return sight / glm::length(sight);
        case Perspective::upright:
            return glm::normalize(glm::dvec3(sight.x, 0, sight.z));
        case Perspective::square:
            break;
    }
    return {0, 0, sight.z < 0 ? -1 : 1};
}

double view_distance_mm(const Viewpoint& view) {
    const glm::dvec3 sight = view.look_at_mm - view.eye_mm;
    return view.perspective == Perspective::natural ? glm::length(sight)
                                                    : glm::dot(sight, optical_axis(view));
}

std::string why_no_sight(const Viewpoint& view) {
    // A shifted picture reaches no further from its axis than this; the corners of a bellows camera reach 45.
    constexpr double kMostShift_deg = 70;
    const glm::dvec3 sight = view.look_at_mm - view.eye_mm;
    if (glm::length(sight) < 1) return "found the eye's own place, expected a point away from it";
    const double least = std::cos(glm::radians(kMostShift_deg)) * glm::length(sight);
    if (view.perspective == Perspective::upright && std::hypot(sight.x, sight.z) < least)
        return "found a line of sight more than 70 degrees up or down, expected a flatter one with "
               "perspective: "
               "upright";
    if (view.perspective == Perspective::square && std::abs(sight.z) < least)
        return "found a line of sight more than 70 degrees aside, expected one more towards the wall with "
               "perspective: square";
    return "";
}

double lens_view_width_mm(const Viewpoint& view, double aspect) {
    return view_distance_mm(view) * kFilmLong_mm / view.focal_length_mm * std::min(aspect, 1.0);
}

}  // namespace rakelight
