// What follows from a viewpoint's stance: where the picture plane looks and how far it is from what is looked
// at.
#pragma once

#include <glm/glm.hpp>
#include <string>

#include "scene/model/views.h"

namespace rakelight {

/// Film behind a focal length, mm: 36 x 24 (ISO 1007, from memory).
inline constexpr double kFilmLong_mm = 36;

/// Unit vector across the picture plane, away from the eye: the line of sight itself, the same made level, or
/// square to the panel's wall. The looked-at point must lie before the eye along it (see why_no_sight).
glm::dvec3 optical_axis(const Viewpoint& view);

/// From the eye to the looked-at point, along the optical axis.
double view_distance_mm(const Viewpoint& view);

/// What keeps a viewpoint from being drawn in its perspective: "found X, expected Y", or empty.
std::string why_no_sight(const Viewpoint& view);

/// Width of the view at the looked-at point through a lens of `focal_length_mm`, when the picture's long side
/// is that of the film: width / height is `aspect`. W = distance * film / f, so the angle across the long
/// side is 2 atan(36 mm / (2 f)).
double lens_view_width_mm(const Viewpoint& view, double aspect);

}  // namespace rakelight
