// Interfaces that stand for their own curve (footprint.h) mirror as much light as the curve itself: glass
// under a lamp, few samples with footprints against many without.
#include <gtest/gtest.h>

#include "renderer/picture_settings.h"
#include "renderer/tile.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

constexpr const char* kLayout = R"(
panel: {name: glass, size: [120, 90]}
fields: [{name: all, piece: 12, mix: deep-teal, tilt: 2}]
lamps:
  - {name: key, form: spot, at: [-300, 2400, 900], aim: [0, 1450, 0], lumen: 900, beam angle: 60, width: 400}
pictures:
  - {name: small, viewpoint: straight, size: [32, 24], most samples: 64, grain: 1 %}
)";

struct Light {
    double mean_cd_per_m2 = 0, square_error = 0;
};

// Light of the frame, every pixel sampled equally often, and the square of its standard error.
Light light_of_frame(int samples, bool footprints) {
    const Layout layout = read_layout_text(kLayout, "glass.yaml");
    const World world = build_world(layout, lay(layout));
    const Bvh bvh(world);
    const Picture& picture = layout.views.pictures[0];
    RenderOptions options;
    options.most_samples = samples;
    options.error = 0;
    const PictureSettings settings = picture_settings(world, bvh, layout, picture, options);
    const Film film = blank_film(world, picture, {0, picture.height_px});
    const LightSampler lights(settings.lamps);
    const SceneView<Bvh> scene{world, bvh, lights};
    Light light;
    const auto pixels = static_cast<double>(film.pixel_count());
    for (int top = 0; top < film.height; top += kTileSize)
        for (int left = 0; left < film.width; left += kTileSize) {
            const Tile tile = tile_at(film, left, top);
            TileLight sums(tile, film);
            sample_tile(settings.tile, film, tile, samples, sums.sampled,
                        [&](std::span<Path> paths, std::span<float> of_path) {
                            if (!footprints)
                                for (Path& path : paths) path.shrinking = 0;
                            trace_paths(scene, paths, PathSums{sums.xyz, {}, of_path});
                        });
            for (const PixelSum& sum : sums.sampled.pixels) {
                light.mean_cd_per_m2 += sum.light.sum / samples / pixels;
                light.square_error += sum.light.variance(samples) / (pixels * pixels);
            }
        }
    return light;
}

TEST(WidenedLight, IsAsMuchAsThatOfTheCurve) {
    const Light few = light_of_frame(128, true), many = light_of_frame(2048, false);
    const double error = std::sqrt(few.square_error + many.square_error) / many.mean_cd_per_m2;
    EXPECT_LT(error, 0.005);
    // A third of a per cent is what the whole may be off, and chance besides.
    EXPECT_NEAR(few.mean_cd_per_m2 / many.mean_cd_per_m2, 1, 0.003 + 2 * error);
}

}  // namespace
}  // namespace rakelight
