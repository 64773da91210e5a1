// Faces leant towards a lamp and an eye against traced light: a glass piece turned so shows the lamp to the
// eye, one four degrees off does not. Fresnel's equations, n = 1.5, give the luminance that is seen.
#include <gtest/gtest.h>

#include <glm/gtc/matrix_transform.hpp>

#include "scene/model/layout.h"
#include "scene/room/lean.h"
#include "scene/room/panel_frame.h"
#include "tests/support/small_world.h"

namespace rakelight {
namespace {

constexpr double kLamp_cd_per_m2 = 1e6;
constexpr float kLampRadius_mm = 30;

// Places in the room.
struct Sight {
    glm::dvec3 piece_mm, lamp_mm, eye_mm;
};

// Normal of a face that is leant towards lamp and eye, all the way.
glm::dvec3 leant_normal(const Sight& place) {
    Layout layout;
    layout.panel.lean_deg = 0;
    Lean lean;
    lean.lamp = "lamp";
    lean.viewpoint = "eye";
    const glm::dvec3 aside = place.piece_mm - panel_frame(layout.panel).to_room_mm(glm::dvec3(0));
    Lamp lamp;
    lamp.name = lean.lamp;
    lamp.at_mm = place.lamp_mm;
    layout.on.lamps = {lamp};
    Viewpoint eye;
    eye.name = lean.viewpoint;
    eye.eye_mm = place.eye_mm;
    layout.views.viewpoints = {eye};
    const glm::dvec2 face = turned_face_rad(toward(layout, lean, aside), 90);
    return glm::normalize(glm::dvec3(-std::tan(face.x), -std::tan(face.y), 1));
}

// `normal` turned upward by `up_deg` and to the right by `aside_deg`.
glm::dvec3 turned(const glm::dvec3& normal, double up_deg, double aside_deg) {
    const auto up = glm::rotate(glm::dmat4(1), glm::radians(-up_deg), glm::dvec3(1, 0, 0));
    const auto aside = glm::rotate(glm::dmat4(1), glm::radians(aside_deg), glm::dvec3(0, 1, 0));
    return glm::dvec3(aside * up * glm::dvec4(normal, 0));
}

// The luminance of a black glass piece of 10 mm with this normal.
double seen_in_piece(const Sight& place, const glm::dvec3& normal, int paths = 256) {
    World world = empty_world();
    const Basis basis{glm::vec3(normal)};
    glm::mat4 stand(1);
    stand[0] = glm::vec4(basis.x, 0);
    stand[1] = glm::vec4(basis.y, 0);
    stand[2] = glm::vec4(glm::vec3(normal), 0);
    stand[3] = glm::vec4(glm::vec3(place.piece_mm), 1);
    add(world, floor_square(10), stand, object_of(world, faced(1.5f, 0, 0)));
    world.emitters.push_back(lamp_of(SphereShape{kLampRadius_mm}, glm::vec3(place.lamp_mm), {0, -1, 0},
                                     static_cast<float>(kLamp_cd_per_m2)));
    finish(world);
    return seen_cd_per_m2(world, glm::vec3(place.eye_mm),
                          glm::normalize(glm::vec3(place.piece_mm - place.eye_mm)), paths);
}

// Unpolarised reflectance of a smooth face.
double fresnel(double cos_in, double n) {
    const double cos_t = std::sqrt(1 - (1 - cos_in * cos_in) / (n * n));
    const double s = (cos_in - n * cos_t) / (cos_in + n * cos_t),
                 p = (n * cos_in - cos_t) / (n * cos_in + cos_t);
    return (s * s + p * p) / 2;
}

Sight under_gallery_spot(double piece_m, double eye_m) {
    return {{0, 1000 * piece_m, 0}, {0, 3000, 810}, {0, 1000 * eye_m, 2000}};
}

}  // namespace

// Every place of the table in lean_test.cpp: turned so, the piece flashes with its Fresnel share of the
// lamp's luminance; turned 4 degrees more or less, up or aside, it shows nothing.
TEST(LeanGlint, PiecesFlashWhereTheyAreLeant) {
    for (const double piece_m : {2.20, 1.90, 1.60, 1.45, 1.00})
        for (const double eye_m : {1.60, 1.15, 1.00}) {
            const Sight place = under_gallery_spot(piece_m, eye_m);
            const glm::dvec3 normal = leant_normal(place);
            const double expected =
                kLamp_cd_per_m2 *
                fresnel(glm::dot(normal, glm::normalize(place.eye_mm - place.piece_mm)), 1.5);
            EXPECT_NEAR(seen_in_piece(place, normal) / expected, 1, 0.05) << piece_m << ' ' << eye_m;
            for (const double off : {-4.0, 4.0}) {
                EXPECT_EQ(seen_in_piece(place, turned(normal, off, 0)), 0) << piece_m << ' ' << eye_m;
                EXPECT_EQ(seen_in_piece(place, turned(normal, 0, off)), 0) << piece_m << ' ' << eye_m;
            }
        }
}

// The tilt about which the flash is centred, found by tracing alone, is that of the leant face: it lies in
// the middle of the tilts that flash.
TEST(LeanGlint, TracedTiltIsTheLeantOne) {
    const Sight place = under_gallery_spot(2.20, 1.15);
    double sum = 0, count = 0;
    for (double up_deg = 4; up_deg < 13; up_deg += 0.1)
        if (seen_in_piece(place, turned({0, 0, 1}, up_deg, 0), 16) > 0) sum += up_deg, ++count;
    ASSERT_GT(count, 0);
    const glm::dvec3 leant = leant_normal(place);
    EXPECT_NEAR(sum / count, glm::degrees(std::atan2(leant.y, leant.z)), 0.2);
    EXPECT_NEAR(sum / count, 8.5, 1);
    // As wide as half the lamp: 2 atan(30 mm / 1138 mm) = 3.02 degrees across, so 1.51 of tilt.
    EXPECT_NEAR(0.1 * count, 1.51, 0.25);
}

// A lamp and an eye anywhere: out of the plane across the wall as well.
TEST(LeanGlint, PiecesFlashAside) {
    for (const Sight& place : {Sight{{100, 1500, 0}, {-900, 2900, 1100}, {500, 1300, 1800}},
                               Sight{{-200, 1300, 0}, {1500, 1500, 3000}, {-600, 1600, 1200}}}) {
        const glm::dvec3 normal = leant_normal(place);
        EXPECT_GT(seen_in_piece(place, normal), 0.03 * kLamp_cd_per_m2);
        EXPECT_EQ(seen_in_piece(place, turned(normal, 4, 0)), 0);
        EXPECT_EQ(seen_in_piece(place, turned(normal, 0, -4)), 0);
    }
}

}  // namespace rakelight
