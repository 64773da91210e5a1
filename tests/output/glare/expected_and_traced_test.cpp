// What small mirrors are expected to do, against the same panel traced: a dark room, a lamp and an eye.
#include <gtest/gtest.h>

#include <numbers>

#include "materials/stock/stock.h"
#include "output/glare/measures/expected_glare.h"
#include "output/glare/measures/panel_glare.h"
#include "output/glare/measures/seen_patches.h"
#include "renderer/bvh.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/world/world.h"

namespace rakelight {
namespace {

// Walls that send nothing back, so that all that is mirrored comes from the lamp itself.
std::string text(const std::string& field) {
    return "panel: {size: [240, 180], seed: 3}\n"
           "stock:\n"
           "  soot: {kind: paint, reflectance: [[400, 0.001], [700, 0.001]]}\n"
           "  glass: {like: storm-grey, ripple: 0}\n"
           "fields: [{name: all, piece: 12, joint: 1, mix: glass, grout: charcoal, " +
           field +
           "}]\n"
           "room: {wall: soot, floor: soot, ceiling: soot}\n"
           "lamps: [{name: lamp, form: flat panel, at: [-60, 1500, 2600], aim: [-60, 1500, 0], width: 300, "
           "height: 200, lumen: 400}]\n"
           "viewpoints: [{name: eye, eye: [60, 1400, 1300], view width: 300}]\n";
}

struct Scores {
    double expected = 0, traced = 0, expected_lux = 0, traced_lux = 0;
    double body = 0;  ///< reflectance of the pieces below their faces
};

Scores scores(const std::string& layout_text, double lean_deg) {
    Layout layout = read_layout_text(layout_text, "test.yaml");
    layout.panel.lean_deg = lean_deg;
    const Laying laying = lay(layout);
    const World world = build_world(layout, laying);
    const Bvh bvh(world);
    Picture picture;
    picture.viewpoint = "eye";
    picture.width_px = 400;
    picture.height_px = 300;
    picture.most_samples = 32;
    const Film film = render(world, bvh, layout, picture, {.mirrored = true});
    std::vector<std::uint32_t> fields(laying.pieces.size(), 0);
    const Camera camera = make_camera(layout.views.viewpoints[0], film.width, film.height, world.origin_mm);
    Scores s;
    s.traced = panel_glare(film, seen_patches(film, camera), fields, 0.0432).score;
    for (const glm::dvec3& xyz : panel_illuminance_xyz(world, bvh, world.emitters)) s.traced_lux += xyz.y;

    GlareTerms terms;
    terms.head_mm = 0;
    terms.lux = s.traced_lux;
    const double reach = 1300 * std::tan(glm::radians(0.5));
    const auto mirrors = small_mirrors(layout, laying, reach);
    s.body = mirrors[0].body;
    const LampEffect effect =
        effect_of(make_emitter(layout.on.lamps[0], glm::dvec3(0), 0), panel_frame(layout.panel), mirrors,
                  std::vector{layout.views.viewpoints[0].eye_mm}, meter_grid(layout.panel), terms);
    s.expected = effect.score[0];
    for (const double lux : effect.lux) s.expected_lux += lux / static_cast<double>(effect.lux.size());
    return s;
}

// What a flat panel mirrors of the lamp, in the mean over its pieces, by plane geometry: the eye 1300 mm and
// the lamp 2600 mm in front of it see each other over a third of the lamp's 300 by 200 mm. There the lamp's
// 400 lm, as a Lambert's, times Fresnel's ((n - 1) / (n + 1))^2 stand against the pieces' own light.
double score_by_geometry(const Scores& s) {
    const double image_mm2 = 300. / 3 * 200 / 3;
    const double lamp_cd_per_m2 = 400 / (std::numbers::pi * 0.3 * 0.2);
    const double n = static_cast<double>(find_stock("storm-grey")->index), mirrored = (n - 1) / (n + 1);
    const double own_cd_per_m2 = s.body * s.traced_lux / std::numbers::pi;
    return 100 * image_mm2 / (240 * 180) *
           glare_weight(lamp_cd_per_m2 * mirrored * mirrored, own_cd_per_m2, GlareTerms().veil);
}

// A panel lamp behind the eye, square on: mirrored in a panel that hangs flat, thrown to the floor by one
// that leans. In both the closed form and the tracer tell the same, within what tilts of single pieces make
// of it.
TEST(ExpectedAndTraced, AgreeOnWhereALampIsMirrored) {
    const Scores flat = scores(text("setting: reverse"), 0);
    EXPECT_GT(flat.traced, 2);
    EXPECT_NEAR(flat.expected, score_by_geometry(flat), 0.03 * flat.expected);
    // Traced, edges and grains of grout glint as well.
    EXPECT_GT(flat.traced, flat.expected);
    // How near is a threshold of our own, only to catch a slip.
    EXPECT_NEAR(flat.expected, flat.traced, 0.25 * flat.traced);
    EXPECT_NEAR(flat.expected_lux, flat.traced_lux, 0.01 * flat.traced_lux);
    const Scores leaning = scores(text("setting: reverse"), 14);
    EXPECT_LT(leaning.traced, 0.1 * flat.traced);
    EXPECT_LT(leaning.expected, 0.1 * flat.expected);
}

// Pieces set by hand break the image into sparkles over more of the panel.
TEST(ExpectedAndTraced, AgreeOnTiltedPieces) {
    const Scores tilted = scores(text("tilt: 3"), 0);
    EXPECT_GT(tilted.traced, 1);
    EXPECT_NEAR(tilted.expected, tilted.traced, 0.3 * tilted.traced);
}

}  // namespace
}  // namespace rakelight
