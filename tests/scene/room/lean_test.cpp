// Faces that are leant towards a lamp and an eye together, by the law of reflection: a mirror's normal halves
// the angle between the two, and what it throws at the eye comes from the lamp.
#include "scene/room/lean.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "scene/room/panel_frame.h"

namespace rakelight {
namespace {

constexpr double kAllTheWay_deg = 90;

// A small panel hung with its centre at `piece_mm`, a lamp and an eye, both seen from its centre in the room.
struct Sight {
    Layout layout;
    glm::dvec3 piece_mm{};  // room

    Sight(double height_mm, double lean_deg, const glm::dvec3& to_lamp_mm, const glm::dvec3& to_eye_mm) {
        layout.panel.width_mm = layout.panel.height_mm = 100;
        layout.panel.centre_height_mm = height_mm;
        layout.panel.lean_deg = lean_deg;
        piece_mm = panel_frame(layout.panel).to_room_mm({50, 50, 0});
        Lamp lamp;
        lamp.name = "spot";
        lamp.at_mm = piece_mm + to_lamp_mm;
        layout.on.lamps = {lamp};
        Viewpoint eye;
        eye.name = "eye";
        eye.eye_mm = piece_mm + to_eye_mm;
        layout.views.viewpoints = {eye};
    }
    // Slopes of the face in the middle of the panel, turned by at most `turn_deg`.
    glm::dvec2 face_rad(double turn_deg = kAllTheWay_deg) const {
        Lean lean;
        lean.lamp = "spot";
        lean.viewpoint = "eye";
        return turned_face_rad(toward(layout, lean, {50, 50, 0}), turn_deg);
    }
    double up_deg() const { return -glm::degrees(face_rad().y); }
};

// A spot 3.0 m up and 0.81 m out (30 degree rule), an eye 2.0 m away, in the plane across the wall.
Sight under_gallery_spot(double piece_m, double eye_m, double lean_deg = 0) {
    return {1000 * piece_m, lean_deg, {0, 3000 - 1000 * piece_m, 810}, {0, 1000 * (eye_m - piece_m), 2000}};
}

glm::dvec3 normal_of(const glm::dvec2& slopes_rad) {
    return glm::normalize(glm::dvec3(-std::tan(slopes_rad.x), -std::tan(slopes_rad.y), 1));
}

// Worked by hand: (elevation of the lamp + elevation of the eye) / 2, both as seen from the piece.
TEST(Lean, TableOfAGallerySpot) {
    struct Row {
        double piece_m, eye_m, tilt_deg;
    };
    for (const Row& row : {Row{2.20, 1.60, 14},
                           {2.20, 1.15, 8.5},
                           {2.20, 1.00, 6.9},
                           {1.90, 1.60, 23},
                           {1.90, 1.15, 17},
                           {1.90, 1.00, 15},
                           {1.60, 1.60, 30},
                           {1.60, 1.15, 24},
                           {1.60, 1.00, 22},
                           {1.45, 1.60, 33},
                           {1.45, 1.15, 27},
                           {1.45, 1.00, 25},
                           {1.00, 1.60, 42},
                           {1.00, 1.15, 36},
                           {1.00, 1.00, 34}}) {
        const Sight sight = under_gallery_spot(row.piece_m, row.eye_m);
        EXPECT_NEAR(sight.up_deg(), row.tilt_deg, 1) << row.piece_m << ' ' << row.eye_m;
        EXPECT_NEAR(sight.face_rad().x, 0, 1e-12);
        const double elevations =
            std::atan2(3 - row.piece_m, 0.81) + std::atan2(row.eye_m - row.piece_m, 2.0);
        EXPECT_NEAR(sight.up_deg(), elevations / 2 * 180 / std::numbers::pi, 1e-9);
    }
}

TEST(Lean, ReflectionGoesFromEyeToLamp) {
    for (const double lean_deg : {0.0, 4.0}) {
        const glm::dvec3 to_lamp(-1020, 1400, 1870), to_eye(280, -200, 1770);
        const Sight sight(1500, lean_deg, to_lamp, to_eye);
        const glm::dvec3 n = panel_frame(sight.layout.panel).to_room(normal_of(sight.face_rad()));
        const glm::dvec3 in = -glm::normalize(to_eye), out = in - 2 * glm::dot(in, n) * n;
        EXPECT_LT(glm::distance(out, glm::normalize(to_lamp)), 1e-12) << lean_deg;
    }
}

// A panel that leans into the room by so much needs so much more upward tilt in its own axes.
TEST(Lean, ALeaningPanelAddsToTheTilt) {
    const double upright = under_gallery_spot(1.45, 1.6).up_deg();
    for (const double lean : {2.0, 5.0, 8.0})
        EXPECT_NEAR(under_gallery_spot(1.45, 1.6, lean).up_deg(), upright + lean, 1e-9);
}

// A face is turned the way it needs, as far as is asked and no farther than it needs, nor beyond 45 degrees.
TEST(Lean, TurnsAsFarAsIsAsked) {
    const Sight sight(1500, 0, {-1020, 1400, 1870}, {280, -200, 1770});
    const glm::dvec3 whole = normal_of(sight.face_rad());
    const double needed_deg = glm::degrees(std::acos(whole.z));
    ASSERT_GT(needed_deg, 10);
    for (const double turn_deg : {3.0, 10.0, needed_deg + 5}) {
        const glm::dvec3 n = normal_of(sight.face_rad(turn_deg));
        EXPECT_NEAR(glm::degrees(std::acos(n.z)), std::min(turn_deg, needed_deg), 1e-9);
        EXPECT_NEAR(n.x / n.y, whole.x / whole.y, 1e-9);
    }
    const glm::dvec3 steep = normal_of(turned_face_rad(glm::normalize(glm::dvec3(3, 0, 1)), kAllTheWay_deg));
    EXPECT_NEAR(glm::degrees(std::acos(steep.z)), 45, 1e-9);
}

}  // namespace
}  // namespace rakelight
