#include "output/mirrored_ball/ball_view.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

const glm::dvec3 kToCamera(0, 0, 1);

// Where the outline of a ball of radius 1 lies on a plane one away from the camera.
double outline_tangent(double away) {
    return 1 / std::sqrt(away * away - 1);
}

// The normal that is halfway between the mirrored direction and the sight line.
glm::dvec3 halfway(const glm::dvec3& direction, const glm::dvec3& to_camera) {
    const glm::dvec3 sum = direction + to_camera;
    const double length = glm::length(sum);
    return length > 1e-9 ? sum / length : glm::dvec3(1, 0, 0);
}

}  // namespace

glm::dvec2 mirrored_at_px(const BallView& view, const glm::dvec3& direction) {
    glm::dvec3 normal = halfway(direction, kToCamera);
    glm::dvec2 at(normal);
    if (view.away_radii) {
        const double away = *view.away_radii;
        for (int i = 0; i < 60; ++i) {  // the sight line turns by less than 1 / away of the normal's turn
            const glm::dvec3 next = halfway(direction, glm::normalize(kToCamera * away - normal));
            const bool still = glm::distance(next, normal) < 1e-12;
            normal = next;
            if (still) break;
        }
        at = glm::dvec2(normal) / (away - normal.z) / outline_tangent(away);
        if (away * normal.z < 1)
            at = glm::normalize(glm::dvec2(normal));  // hidden behind the ball: the outline
    }
    return view.middle_px + view.radius_px * glm::dvec2(at.x, -at.y);
}

std::optional<glm::dvec3> mirrored_from(const BallView& view, const glm::dvec2& at_px) {
    glm::dvec2 at = (at_px - view.middle_px) / view.radius_px;
    at.y = -at.y;
    const double square = glm::dot(at, at);
    if (square >= 1) return {};
    glm::dvec3 normal(at, std::sqrt(1 - square)), to_camera = kToCamera;
    if (view.away_radii) {
        // The sight line from the camera, cut with the ball.
        const double away = *view.away_radii;
        const glm::dvec3 sight = glm::normalize(glm::dvec3(at * outline_tangent(away), -1));
        const double along = -away * sight.z, inside = along * along - (away * away - 1);
        if (inside < 0) return {};
        normal = kToCamera * away + sight * (along - std::sqrt(inside));
        to_camera = -sight;
    }
    return 2 * glm::dot(normal, to_camera) * normal - to_camera;
}

}  // namespace rakelight
