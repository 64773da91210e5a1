// Where a camera stood, by a rectangle of known size on the wall (Zhang 2000, "A Flexible New Technique for
// Camera Calibration", IEEE PAMI 22, 11: the homography of one plane, square pixels, the optical axis through
// the middle of the picture), then by least squares of where the corners are seen (Levenberg-Marquardt).
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <optional>

namespace rakelight {

/// A rectangle on the wall as a photograph shows it.
struct SeenSheet {
    std::array<glm::dvec2, 4> corners_px{};  ///< upper left, upper right, lower right, lower left
    glm::dvec2 size_mm{};                    ///< width, height
    glm::dvec2 photograph_px{};              ///< width, height of the whole photograph
    std::optional<double> focal_px;          ///< known, as by Exif; none = found
};

/// A pinhole camera before a wall. Wall coordinates: origin in the middle of the sheet, x to its right, y up,
/// z out of the wall.
struct SheetPose {
    double focal_px = 0;
    glm::dvec3 eye_mm{};
    glm::dvec3 right{}, down{}, forward{};  ///< unit, the photograph's own
    double misfit_px = 0;                   ///< root mean square over the corners
    /// Standard deviations that follow when each corner is told within `told_px` (standard deviation).
    double focal_doubt = 0;          ///< share; 0 = it was known
    double distance_doubt = 0;       ///< share of the distance from eye to sheet
    double direction_doubt_deg = 0;  ///< of the line of sight to the wall
};

/// \throws std::runtime_error "found X, expected Y": corners that go round no rectangle seen from the front,
/// or from which no focal length follows, as when the sheet is seen nearly square on.
SheetPose pose_of(const SeenSheet& sheet, double told_px = 0.5);

/// Where the camera sees a point of the wall's coordinates, in pixels; the point lies before it.
glm::dvec2 seen_px(const SheetPose& pose, const glm::dvec2& photograph_px, const glm::dvec3& at_mm);

}  // namespace rakelight
