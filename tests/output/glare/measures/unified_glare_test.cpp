// The rating of CIE 117-1995 from numbers, and from a traced picture of the same scene. The scene: the eye
// looks level along a room of luminance 30 cd/m2; four luminaires of 0.36 m2 and 4000 cd/m2 hang 1.5 m above
// it. Solid angles are area times cosine over distance squared; worked by hand from CIE 117's formula.
#include "output/glare/measures/unified_glare.h"

#include <gtest/gtest.h>

#include "output/glare/measures/guth.h"
#include "output/glare/measures/seen_patches.h"
#include "tests/support/small_world.h"

namespace rakelight {
namespace {

const glm::dvec3 kLuminaires_m[] = {{0, 1.5, -2}, {0, 1.5, -4}, {2, 1.5, -2}, {-2, 1.5, -4}};
const glm::dvec3 kSight(0, 0, -1), kUp(0, 1, 0);

TEST(UnifiedGlare, OfOneSource) {  // 8 log10(0.25 / 40 * 5000^2 * 0.01)
    const GlareSource source{kSight, 5000, 0.01, 1};
    EXPECT_NEAR(*unified_glare_rating(std::span(&source, 1), 40), 25.55, 0.005);
}

TEST(UnifiedGlare, DoublingAllLuminancesAddsEightLogTwo) {
    GlareSource source{kSight, 5000, 0.01, 1.7};
    const double before = *unified_glare_rating(std::span(&source, 1), 40);
    source.cd_per_m2 *= 2;
    EXPECT_NEAR(*unified_glare_rating(std::span(&source, 1), 80) - before, 2.408, 1e-3);
}

TEST(UnifiedGlare, OfFourLuminairesByHand) {
    std::vector<GlareSource> sources;
    for (const auto& at : kLuminaires_m) {
        const double far = glm::length(at);
        const glm::dvec3 direction = at / far;
        sources.push_back(
            {direction, 4000, 0.36 * direction.y / (far * far), position_index(direction, kSight, kUp)});
    }
    EXPECT_NEAR(sources[0].solid_angle_sr, 0.034560, 1e-6);
    EXPECT_NEAR(*unified_glare_rating(sources, 30), 22.28, 0.01);
}

TEST(UnifiedGlare, OfATracedPictureOfThem) {
    World world = empty_world();
    for (const auto& at : kLuminaires_m)
        world.emitters.push_back(
            lamp_of(RectangleShape{glm::vec2(300)}, glm::vec3(at * 1000.0), {0, -1, 0}, 4000));
    world.environment = UniformEnvironment{30, tristimulus_weights(*find_illuminant("D65")), 0};
    finish(world);

    Viewpoint view;
    view.look_at_mm = {0, 0, -1000};
    view.view_width_mm = 3400;
    Film film;
    film.width = 1020, film.height = 900;
    film.groups = {"light"};
    film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count()));
    const Camera camera = make_camera(view, film.width, film.height, {0, 0, 0});
    const Bvh bvh(world);
    const LightSampler lamps(world.emitters);
    const SceneView<Bvh> scene{world, bvh, lamps};
    std::vector<glm::dvec3> total(1);
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            total[0] = glm::dvec3(0);
            Path path{.from_mm = camera.eye_mm,
                      .direction = camera.toward((static_cast<float>(x) + 0.5f) / 1020,
                                                 (static_cast<float>(y) + 0.5f) / 900),
                      .sampler = Sampler(1, 0)};
            trace_paths(scene, std::span(&path, 1), total);
            film.xyz[0][static_cast<std::size_t>(y) * 1020 + static_cast<std::size_t>(x)] = total[0];
        }

    const GlareView seen = glare_in_view(seen_patches(film, camera), film.width, kSight, kUp);
    ASSERT_EQ(seen.sources.size(), 4u);
    EXPECT_NEAR(seen.background_cd_per_m2, 30, 0.3);
    for (const GlareSource& source : seen.sources) EXPECT_NEAR(source.cd_per_m2, 4000, 20);
    ASSERT_TRUE(seen.rating);
    EXPECT_NEAR(*seen.rating, 22.28, 0.2);
}

TEST(UnifiedGlare, AnEvenViewHasNone) {
    std::vector<SeenPatch> patches(100, {kSight, 50, 0.001});
    const GlareView seen = glare_in_view(patches, 10, kSight, kUp);
    EXPECT_TRUE(seen.sources.empty());
    EXPECT_FALSE(seen.rating);
    EXPECT_NEAR(seen.background_cd_per_m2, 50, 1e-9);
}

TEST(UnifiedGlare, PixelsThatTouchOnlyAtCornersAreTwoSources) {
    std::vector<SeenPatch> patches(16, {kSight, 1, 0.001});
    patches[5].cd_per_m2 = patches[10].cd_per_m2 = 1000;
    EXPECT_EQ(glare_in_view(patches, 4, kSight, kUp).sources.size(), 2u);
    patches[6].cd_per_m2 = 1000;
    EXPECT_EQ(glare_in_view(patches, 4, kSight, kUp).sources.size(), 1u);
}

}  // namespace
}  // namespace rakelight
