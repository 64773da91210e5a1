// Perspective by its geometry: which lines of the room stay what they are in the picture.
#include "renderer/camera.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

// Where a point of the room shows, in shares of the picture: the ray from the eye through the picture plane
// corner + x right + y down.
glm::dvec2 shown(const Camera& camera, const glm::dvec3& point_mm) {
    const glm::dvec3 way = point_mm - glm::dvec3(camera.eye_mm);
    const glm::dvec3 normal = glm::cross(glm::dvec3(camera.right), glm::dvec3(camera.down));
    const glm::dvec3 on_plane = way * (glm::dot(glm::dvec3(camera.corner), normal) / glm::dot(way, normal)) -
                                glm::dvec3(camera.corner);
    return {glm::dot(on_plane, glm::dvec3(camera.right)) / glm::dot(camera.right, camera.right),
            glm::dot(on_plane, glm::dvec3(camera.down)) / glm::dot(camera.down, camera.down)};
}

Viewpoint seated_aside(Perspective perspective) {
    Viewpoint view;
    view.eye_mm = {700, 1100, 1600};
    view.look_at_mm = {0, 1450, 0};
    view.view_width_mm = 900;
    view.perspective = perspective;
    return view;
}

// The corners of a panel of 600 x 450 mm: left below, right below, left above, right above.
std::array<glm::dvec2, 4> corners(Perspective perspective) {
    const Camera camera = make_camera(seated_aside(perspective), 1200, 900, glm::dvec3(0));
    return {shown(camera, {-300, 1225, 0}), shown(camera, {300, 1225, 0}), shown(camera, {-300, 1675, 0}),
            shown(camera, {300, 1675, 0})};
}

constexpr Perspective kAll[] = {Perspective::natural, Perspective::upright, Perspective::square};

}  // namespace

TEST(Camera, LookedAtPointIsTheMiddleOfThePicture) {
    for (const Perspective perspective : kAll) {
        const Camera camera = make_camera(seated_aside(perspective), 1200, 900, glm::dvec3(0));
        EXPECT_LT(glm::distance(shown(camera, {0, 1450, 0}), glm::dvec2(0.5)), 1e-6);
        const glm::vec3 middle = camera.toward(0.5f, 0.5f);
        EXPECT_GT(glm::dot(middle, glm::normalize(glm::vec3(-700, 350, -1600))), 1 - 1e-6f);
    }
}

TEST(Camera, UprightPicturesKeepVerticalsVertical) {
    const auto natural = corners(Perspective::natural);
    EXPECT_GT(std::abs(natural[0].x - natural[2].x), 0.005);  // they converge
    for (const Perspective perspective : {Perspective::upright, Perspective::square}) {
        const auto c = corners(perspective);
        EXPECT_NEAR(c[0].x, c[2].x, 1e-6);
        EXPECT_NEAR(c[1].x, c[3].x, 1e-6);
        // Anywhere in the room, not only on the panel.
        const Camera camera = make_camera(seated_aside(perspective), 1200, 900, glm::dvec3(0));
        for (const double z : {0.0, 300.0, 900.0})
            EXPECT_NEAR(shown(camera, {-200, 200, z}).x, shown(camera, {-200, 2700, z}).x, 1e-6);
    }
}

// A picture square to the wall shows a rectangle on it as that rectangle, at one scale, even from aside.
TEST(Camera, SquarePicturesKeepThePanelARectangle) {
    const auto c = corners(Perspective::square);
    EXPECT_NEAR(c[0].y, c[1].y, 1e-6);
    EXPECT_NEAR(c[2].y, c[3].y, 1e-6);
    EXPECT_NEAR(c[1].x - c[0].x, 600.0 / 900, 1e-6);           // of a view 900 mm wide
    EXPECT_NEAR(c[0].y - c[2].y, 450.0 / (900 * 0.75), 1e-6);  // and 675 mm high
    const auto upright = corners(Perspective::upright);
    EXPECT_GT(std::abs(upright[0].y - upright[1].y), 0.005);  // seen from aside, level lines run together
}

// The view is as wide as it says at the looked-at point, across the axis.
TEST(Camera, ViewIsAsWideAsItSays) {
    for (const Perspective perspective : kAll) {
        const Viewpoint view = seated_aside(perspective);
        const Camera camera = make_camera(view, 1200, 900, glm::dvec3(0));
        const glm::dvec3 across = glm::normalize(glm::dvec3(camera.right));
        EXPECT_NEAR(shown(camera, view.look_at_mm + 450.0 * across).x, 1, 1e-6);
        EXPECT_NEAR(shown(camera, view.look_at_mm - 450.0 * across).x, 0, 1e-6);
    }
}

// 36 mm of film behind 50 mm: the left and right edges of the picture are 2 atan(36 / 100) = 39.60 degrees
// apart, as seen along the middle row.
TEST(Camera, EdgesAreALensAngleApart) {
    Viewpoint view = seated_aside(Perspective::natural);
    view.focal_length_mm = 50;
    view.view_width_mm = lens_view_width_mm(view, 1.5);
    const Camera camera = make_camera(view, 1200, 800, glm::dvec3(0));
    const double cosine = glm::dot(camera.toward(0, 0.5f), camera.toward(1, 0.5f));
    EXPECT_NEAR(glm::degrees(std::acos(cosine)), 39.60, 0.01);
}

}  // namespace rakelight
