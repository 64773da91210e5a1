// How near the renderer comes to its limit: wall time of a picture divided by the time Embree needs to answer
// the very same rays, in the same order, one at a time, on as many threads. One run prints the ratio.
//   replay_bench [layout.yaml] [threads] [samples]
#include <fmt/core.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
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

// A picture to be traced tile by tile: what to look from, at what, and how finely.
struct Work {
    const World& world;
    const Bvh& bvh;
    const LightSampler& lamps;
    TileSettings settings;
    int columns, tiles;
};

// Calls `each(tile)` for every tile, on the arena's threads.
void each_tile(tbb::task_arena& arena, int tiles, const auto& each) {
    arena.execute([&] {
        tbb::parallel_for(0, tiles, [&](int t) {
            const FlushDenormals flush;
            each(t);
        });
    });
}

template <class RayCaster>
void trace(const Work& work, const RayCaster& rays, int tile, Film& film) {
    render_tile(SceneView<RayCaster>{work.world, rays, work.lamps}, work.settings,
                tile % work.columns * kTileSize, tile / work.columns * kTileSize, film);
}

std::vector<std::vector<RecordedRay>> recorded(tbb::task_arena& arena, const Work& work, Film& film) {
    std::vector<std::vector<RecordedRay>> asked(static_cast<std::size_t>(work.tiles));
    each_tile(arena, work.tiles, [&](int t) { trace(work, RayRecorder{work.bvh, asked[t]}, t, film); });
    return asked;
}

struct Seconds {
    double render = 1e9, replay = 1e9;
};

// The best of three of each, taken in turns.
Seconds timed(tbb::task_arena& arena, const Work& work, const std::vector<std::vector<RecordedRay>>& asked,
              Film& film) {
    Seconds best;
    for (int turn = 0; turn < 3; ++turn) {
        best.render =
            std::min(best.render, seconds_of([&] {
                         each_tile(arena, work.tiles, [&](int t) { trace(work, work.bvh, t, film); });
                     }));
        std::vector<int> met(asked.size());
        best.replay = std::min(best.replay, seconds_of([&] {
                                   each_tile(arena, work.tiles, [&](int t) {
                                       for (const RecordedRay& r : asked[t])
                                           met[t] += r.shadow ? work.bvh.occluded(r.ray)
                                                              : work.bvh.intersect(r.ray).triangle != kNone;
                                   });
                               }));
    }
    return best;
}

void tell(const std::string& name, const std::vector<std::vector<RecordedRay>>& asked, const Seconds& best,
          int threads) {
    double count = 0, shadow = 0;
    for (const auto& tile : asked) {
        count += static_cast<double>(tile.size());
        shadow += static_cast<double>(
            std::count_if(tile.begin(), tile.end(), [](const RecordedRay& r) { return r.shadow; }));
    }
    const double ns_a_ray = 1e9 * threads / count;
    fmt::print(
        "{}: {:.1f} Mray ({:.0f} % shadow), picture {:.2f} s ({:.0f} ns a ray), replay {:.2f} s ({:.0f} ns), "
        "ratio {:.2f}\n",
        name, count / 1e6, 100 * shadow / count, best.render, best.render * ns_a_ray, best.replay,
        best.replay * ns_a_ray, best.render / best.replay);
}

TileSettings settings_of(const Layout& layout, const Picture& picture, const World& world) {
    TileSettings settings;
    settings.camera =
        make_camera(*std::find_if(layout.views.viewpoints.begin(), layout.views.viewpoints.end(),
                                  [&](const auto& v) { return v.name == picture.viewpoint; }),
                    picture.width_px, picture.height_px, world.origin_mm);
    settings.seed = mix_word(static_cast<std::uint32_t>(layout.panel.seed));
    settings.most_samples = picture.most_samples;
    settings.wanted_error = 0;
    return settings;
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
        const Work work{world,   bvh,
                        lamps,   settings_of(layout, picture, world),
                        columns, columns * ((picture.height_px + kTileSize - 1) / kTileSize)};
        Film film = render(world, bvh, layout, picture, {.threads = threads, .most_samples = 1});
        const auto asked = recorded(arena, work, film);
        tell(wanted.name, asked, timed(arena, work, asked, film), threads);
    }
}
