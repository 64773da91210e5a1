// How much of a picture an eye resolves: light mixed, in linear units, over what it cannot tell apart.
// An eye with normal sight parts two lines one minute of arc apart (letters of Snellen's chart, ISO 8596).
// The mixing is taken as a Gaussian whose width at half its height is that minute.
#pragma once

#include <glm/glm.hpp>
#include <vector>

namespace rakelight {

/// Least angle that an eye resolves, degrees.
inline constexpr double kResolved_deg = 1.0 / 60;

/// Distance up to which a line of that width is told apart, m: width / tan(1'), 3.44 m for each mm.
double resolve_distance_m(double width_mm);

/// Light of one part of a picture as seen from `distance_m`. Row-major; `mm_per_px`: of the part itself.
/// Beyond its edges the part is taken to go on as it is within, so that its mean stays what it was but for
/// the edges themselves.
std::vector<glm::vec3> seen_from(const std::vector<glm::vec3>& xyz, int width_px, int height_px,
                                 double mm_per_px, double distance_m);

/// The same of one number a pixel.
std::vector<float> seen_from(const std::vector<float>& values, int width_px, int height_px, double mm_per_px,
                             double distance_m);

}  // namespace rakelight
