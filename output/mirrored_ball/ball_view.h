// A mirrored ball as a camera sees it: the law of reflection on a sphere (Debevec 1998, "Rendering Synthetic
// Objects into Real Scenes", uses one as its light probe).
#pragma once

#include <glm/glm.hpp>
#include <optional>

namespace rakelight {

/// Where the ball lies in a photograph, in pixels from its upper left corner.
struct BallView {
    glm::dvec2 middle_px{};
    double radius_px = 1;  ///< of its outline
    /// From the camera to the ball's middle, in radii of the ball; none = so far that all sight lines are
    /// parallel.
    std::optional<double> away_radii;
};

/// Where in the photograph the ball mirrors a direction. Directions: z from the ball to the camera, y up in
/// the photograph, x to its right. What the ball hides is on its outline.
glm::dvec2 mirrored_at_px(const BallView& view, const glm::dvec3& direction);

/// The direction that is mirrored at a place of the photograph; none beside the ball.
std::optional<glm::dvec3> mirrored_from(const BallView& view, const glm::dvec2& at_px);

}  // namespace rakelight
