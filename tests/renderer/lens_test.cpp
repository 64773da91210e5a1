// A traced point of light off the focused plane makes the disc that the closed form says, and without an
// aperture pictures keep their bits.
#include "renderer/lens.h"

#include <gtest/gtest.h>

#include <cmath>

#include <glm/gtc/matrix_transform.hpp>
#include "renderer/tile.h"

#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

constexpr int kSide_px = 240;
constexpr double kFocal_mm = 100, kAperture_mm = 25, kFocus_mm = 1100, kFilm_mm = 36;

// A picture of a small lamp straight ahead, `at_mm` away, against nothing.
Film picture_of_lamp(double at_mm, double radius_mm, const Lens& lens) {
    World world = empty_world();
    // Embree wants some triangle: one behind the eye.
    add(world, floor_square(10), glm::translate(glm::mat4(1), glm::vec3(0, 0, 500)),
        object_of(world, matte(0.5f)));
    world.emitters = {lamp_of(DiscShape{glm::vec2(static_cast<float>(radius_mm))},
                              {0, 0, static_cast<float>(-at_mm)}, {0, 0, 1}, 100)};
    finish(world);
    const Bvh bvh(world);
    const LightSampler lamps(world.emitters);
    const SceneView<Bvh> scene{world, bvh, lamps};
    Viewpoint view;
    view.look_at_mm = {0, 0, -kFocus_mm};
    view.view_width_mm = kFilm_mm * (kFocus_mm - kFocal_mm) / kFocal_mm;
    Film film;
    film.width = film.height = kSide_px;
    film.rows = {0, kSide_px};
    film.groups = world.groups;
    film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count()));
    film.error.resize(film.pixel_count());
    film.samples.resize(film.pixel_count());
    auto& f = film.features;
    f.depth_mm.resize(film.pixel_count());
    f.normal.resize(film.pixel_count());
    f.piece.resize(film.pixel_count());
    f.material.resize(film.pixel_count());
    f.first_surface_share.resize(film.pixel_count());
    TileSettings settings;
    settings.camera = make_camera(view, kSide_px, kSide_px, {0, 0, 0});
    settings.lens = lens;
    settings.most_samples = 512;
    settings.wanted_error = 1e-6;
    for (int y = 0; y < kSide_px; y += kTileSize)
        for (int x = 0; x < kSide_px; x += kTileSize) render_tile(scene, settings, x, y, film);
    return film;
}

// Diameter of the evenly bright disc that has the picture's second moment, in millimetres on the film:
// for a disc of diameter d the mean square distance from its middle is d^2 / 8.
double disc_on_film_mm(const Film& film) {
    double light = 0, square = 0;
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const double v = film.xyz[0][static_cast<std::size_t>(y * film.width + x)].y;
            const double dx = x + 0.5 - film.width / 2.0, dy = y + 0.5 - film.height / 2.0;
            light += v;
            square += v * (dx * dx + dy * dy);
        }
    return std::sqrt(8 * square / light) * kFilm_mm / film.width;
}

double circle_of_confusion_mm(double at_mm) {
    return kAperture_mm * kFocal_mm * std::abs(at_mm - kFocus_mm) / (at_mm * (kFocus_mm - kFocal_mm));
}

}  // namespace

TEST(Lens, PointOfLightMakesTheCircleOfConfusion) {
    // c = A f |S2 - S1| / (S2 (S1 - f)): nearer and farther than the focused plane. Mean squares add: those
    // of the lamp's own image, magnified by S1 f / (S1 - f) / S2, and of the tent filter, 1/6 pixel an axis.
    for (const double at_mm : {700.0, 900.0, 1500.0, 2500.0}) {
        const double radius_mm = 0.0008 * at_mm;
        const double image_mm = 2 * radius_mm * kFocus_mm * kFocal_mm / (kFocus_mm - kFocal_mm) / at_mm;
        const double filter_mm = std::sqrt(8 * 2.0 / 6) * kFilm_mm / kSide_px;
        const double expected = std::hypot(circle_of_confusion_mm(at_mm), image_mm, filter_mm);
        ASSERT_GT(circle_of_confusion_mm(at_mm), 0.8 * expected);  // the blur is what is measured
        const Film film = picture_of_lamp(at_mm, radius_mm, {kAperture_mm, kFocus_mm});
        EXPECT_NEAR(disc_on_film_mm(film) / expected, 1, 0.02) << at_mm;
    }
}

TEST(Lens, WhatIsInFocusIsAsSharpAsThroughAPoint) {
    const double sharp_mm = disc_on_film_mm(picture_of_lamp(kFocus_mm, 10, {}));
    EXPECT_NEAR(disc_on_film_mm(picture_of_lamp(kFocus_mm, 10, {kAperture_mm, kFocus_mm})), sharp_mm,
                0.01 * sharp_mm);
    EXPECT_NEAR(sharp_mm, 20 * kFocal_mm / (kFocus_mm - kFocal_mm), 0.05);  // magnification f / (S1 - f)
}

TEST(Lens, RaysMeetInTheFocusedPlaneEvenWhenThePictureIsShifted) {
    Camera camera;
    camera.eye_mm = {10, 20, 30};
    camera.corner = {-0.2f, 0.5f, -1};  // a picture shifted upward: its middle is not straight ahead
    camera.right = {0.6f, 0, 0};
    camera.down = {0, -0.4f, 0};
    const Floats x = broadcast(0.3f), y = broadcast(0.8f);
    const PairOf<Floats> u{{0, .1f, .2f, .4f, .6f, .8f, .9f, .99f}, {.1f, .9f, .3f, .7f, .2f, .5f, .6f, 0}};
    const LensRays rays = through_lens({40, 500}, camera, x, y, u);
    for (std::size_t k = 0; k < kLanes; ++k) {
        const double t = (30 - 500 - rays.from_mm.z[k]) / rays.direction.z[k];
        EXPECT_NEAR(rays.from_mm.x[k] + t * rays.direction.x[k], 10 + 500 * (-0.2 + 0.3 * 0.6), 0.01);
        EXPECT_NEAR(rays.from_mm.y[k] + t * rays.direction.y[k], 20 + 500 * (0.5 - 0.8 * 0.4), 0.01);
        EXPECT_LE(std::hypot(rays.from_mm.x[k] - 10, rays.from_mm.y[k] - 20), 20.001);
    }
}
