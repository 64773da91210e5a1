// How near the renderer comes to its limit: wall time of a picture divided by the time Embree needs to answer
// the very same rays, in the same order, one at a time, on as many threads. One run prints the ratio.
//   replay_bench [layout.yaml] [threads] [samples]
#include <fmt/core.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <chrono>
#include <cstdlib>

#include "renderer/flush_denormals.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "renderer/tile.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

struct RecordedRay {
    Ray ray;
    bool shadow;
};

// Stands in for Bvh: answers through it and keeps every ray.
struct RayRecorder {
    const Bvh& bvh;
    std::vector<RecordedRay>& asked;

    void intersect(std::span<const Ray> rays, std::span<Hit> hits, bool coherent) const {
        for (const Ray& ray : rays) asked.push_back({ray, false});
        bvh.intersect(rays, hits, coherent);
    }
    void occluded(std::span<const Ray> rays, std::span<bool> answers) const {
        for (const Ray& ray : rays) asked.push_back({ray, true});
        bvh.occluded(rays, answers);
    }
};

double seconds_of(const auto& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

int main(int argc, char** argv) {
    const std::string path = argc > 1 ? argv[1] : RAKELIGHT_SCENES "/low-tide.yaml";
    const int threads = argc > 2 ? std::atoi(argv[2]) : 2;
    const int samples = argc > 3 ? std::atoi(argv[3]) : 32;

    Layout layout;
    Laying laying;
    World world;
    const double read_s = seconds_of([&] { layout = read_layout(path); });
    const double lay_s = seconds_of([&] { laying = lay(layout); });
    const double form_s = seconds_of([&] { world = build_world(layout, laying); });
    const double sort_start = seconds_of([&] { Bvh{world}; });
    const Bvh bvh(world);
    fmt::print("{} pieces, {} triangles\n", laying.pieces.size(), world.triangles.size());
    fmt::print("one-off: reading {:.3f} s, laying {:.3f} s, forms {:.3f} s, sorting triangles {:.3f} s\n",
               read_s, lay_s, form_s, sort_start);

    Picture picture = layout.views.pictures.front();
    picture.width_px = 640;
    picture.height_px = 480;
    picture.most_samples = samples;
    picture.error = 0;
    tbb::task_arena arena(threads);
    for (const Picture& wanted : layout.views.pictures) {
        picture.viewpoint = wanted.viewpoint;
        picture.lamps = wanted.lamps;
        const auto lit = lamps_of_picture(world, layout, picture);
        const LightSampler lamps(lit);

        const int columns = (picture.width_px + kTileSize - 1) / kTileSize;
        const int tiles = columns * ((picture.height_px + kTileSize - 1) / kTileSize);
        std::vector<std::vector<RecordedRay>> asked(tiles);
        Film film = render(world, bvh, layout, picture, {.threads = threads, .most_samples = 1});
        TileSettings settings;
        settings.camera =
            make_camera(*std::find_if(layout.views.viewpoints.begin(), layout.views.viewpoints.end(),
                                      [&](const auto& v) { return v.name == picture.viewpoint; }),
                        picture.width_px, picture.height_px, world.origin_mm);
        settings.seed = mix_word(static_cast<std::uint32_t>(layout.panel.seed));
        settings.most_samples = samples;
        settings.wanted_error = 0;
        arena.execute([&] {
            tbb::parallel_for(0, tiles, [&](int t) {
                const FlushDenormals flush;
                const RayRecorder recorder{bvh, asked[t]};
                render_tile(SceneView<RayRecorder>{world, recorder, lamps}, settings, t % columns * kTileSize,
                            t / columns * kTileSize, film);
            });
        });
        std::size_t count = 0;
        std::size_t shadow = 0;
        for (const auto& tile : asked) {
            count += tile.size();
            shadow += std::count_if(tile.begin(), tile.end(), [](const RecordedRay& r) { return r.shadow; });
        }

        double render_s = 1e9;
        double replay_s = 1e9;
        for (int turn = 0; turn < 3; ++turn) {  // the best of three of each, taken in turns
            render_s =
                std::min(render_s, seconds_of([&] {
                             arena.execute([&] {
                                 tbb::parallel_for(0, tiles, [&](int t) {
                                     const FlushDenormals flush;
                                     render_tile(SceneView<Bvh>{world, bvh, lamps}, settings,
                                                 t % columns * kTileSize, t / columns * kTileSize, film);
                                 });
                             });
                         }));
            std::vector<int> met(tiles);
            replay_s = std::min(replay_s, seconds_of([&] {
                                    arena.execute([&] {
                                        tbb::parallel_for(0, tiles, [&](int t) {
                                            const FlushDenormals flush;
                                            for (const RecordedRay& r : asked[t])
                                                met[t] += r.shadow ? bvh.occluded(r.ray)
                                                                   : bvh.intersect(r.ray).triangle != kNone;
                                        });
                                    });
                                }));
        }
        fmt::print(
            "{}: {:.1f} Mray ({:.0f} % shadow), picture {:.2f} s ({:.0f} ns a ray), replay {:.2f} s ({:.0f} "
            "ns), "
            "ratio {:.2f}\n",
            wanted.name, static_cast<double>(count) / 1e6,
            100.0 * static_cast<double>(shadow) / static_cast<double>(count), render_s,
            render_s * 1e9 * threads / static_cast<double>(count), replay_s,
            replay_s * 1e9 * threads / static_cast<double>(count), render_s / replay_s);
    }
}
