// How near the renderer comes to its limit: wall time of a picture beside the time Embree needs to answer the
// very same rays, in the same order, one at a time, and in the same calls as the picture asks them, on as
// many threads. What the picture takes beyond the latter is shading. One run prints the ratios, and beside
// them how many rays a second Embree's own path tracer traces on the same mesh, where it is installed
// (peer.h).
//   replay_bench [layout.yaml] [threads] [samples]
#include <fmt/core.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <memory>

#include "renderer/flush_denormals.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "renderer/tile.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/bench/peer.h"

using namespace rakelight;

namespace {

enum class Asked { alike, unlike, shadow };

// Rays that were asked for together, up to `end` of those recorded.
struct RecordedCall {
    std::size_t end;
    Asked asked;
};

struct Recorded {
    std::vector<Ray> rays;
    std::vector<RecordedCall> calls;
};

// Stands in for Bvh: answers through it and keeps every ray.
struct RayRecorder {
    const Bvh& bvh;
    Recorded& kept;

    void keep(std::span<const Ray> rays, Asked asked) const {
        kept.rays.insert(kept.rays.end(), rays.begin(), rays.end());
        kept.calls.push_back({kept.rays.size(), asked});
    }
    void intersect(std::span<const Ray> rays, std::span<Hit> hits, bool coherent) const {
        keep(rays, coherent ? Asked::alike : Asked::unlike);
        bvh.intersect(rays, hits, coherent);
    }
    void occluded(std::span<const Ray> rays, std::span<bool> answers) const {
        keep(rays, Asked::shadow);
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

std::vector<Recorded> recorded(tbb::task_arena& arena, const Work& work, Film& film) {
    std::vector<Recorded> kept(static_cast<std::size_t>(work.tiles));
    each_tile(arena, work.tiles, [&](int t) { trace(work, RayRecorder{work.bvh, kept[t]}, t, film); });
    return kept;
}

// Each call of a tile, and the rays of it.
void each_call(const Recorded& tile, const auto& each) {
    std::size_t first = 0;
    for (const RecordedCall& call : tile.calls) {
        each(std::span(tile.rays).subspan(first, call.end - first), call.asked);
        first = call.end;
    }
}

int one_by_one(const Bvh& bvh, const Recorded& tile) {
    int met = 0;
    each_call(tile, [&](std::span<const Ray> rays, Asked asked) {
        for (const Ray& ray : rays)
            met += asked == Asked::shadow ? bvh.occluded(ray) : bvh.intersect(ray).triangle != kNone;
    });
    return met;
}

int in_the_same_calls(const Bvh& bvh, const Recorded& tile) {
    std::size_t most = 0;
    each_call(tile, [&](std::span<const Ray> rays, Asked) { most = std::max(most, rays.size()); });
    std::vector<Hit> hits(most);
    const auto answers = std::make_unique<bool[]>(most);
    int met = 0;
    each_call(tile, [&](std::span<const Ray> rays, Asked asked) {
        if (asked == Asked::shadow)
            bvh.occluded(rays, std::span(answers.get(), rays.size()));
        else
            bvh.intersect(rays, std::span(hits).first(rays.size()), asked == Asked::alike);
        met += asked == Asked::shadow ? answers[0] : hits[0].triangle != kNone;
    });
    return met;
}

struct Seconds {
    double render = 1e9, one_by_one = 1e9, same_calls = 1e9;
};

// The best of three of each, taken in turns.
Seconds timed(tbb::task_arena& arena, const Work& work, const std::vector<Recorded>& kept, Film& film) {
    Seconds best;
    std::vector<int> met(kept.size());
    const auto least = [&](double& seconds, const auto& each) {
        seconds = std::min(seconds, seconds_of([&] { each_tile(arena, work.tiles, each); }));
    };
    for (int turn = 0; turn < 3; ++turn) {
        least(best.render, [&](int t) { trace(work, work.bvh, t, film); });
        least(best.one_by_one, [&](int t) { met[t] += one_by_one(work.bvh, kept[t]); });
        least(best.same_calls, [&](int t) { met[t] += in_the_same_calls(work.bvh, kept[t]); });
    }
    return best;
}

// \return rays of the picture
double tell(const std::string& name, const std::vector<Recorded>& kept, const Seconds& best, int threads) {
    double count = 0, shadow = 0, calls = 0;
    for (const Recorded& tile : kept) {
        count += static_cast<double>(tile.rays.size());
        calls += static_cast<double>(tile.calls.size());
        each_call(tile, [&](std::span<const Ray> rays, Asked asked) {
            if (asked == Asked::shadow) shadow += static_cast<double>(rays.size());
        });
    }
    const double ns_a_ray = 1e9 * threads / count;
    fmt::print(
        "{}: {:.1f} Mray ({:.0f} % shadow, {:.0f} a call), ns a ray: picture {:.0f}, replay one by one "
        "{:.0f}, "
        "in the same calls {:.0f}, so shading {:.0f}; picture over one by one {:.2f}, over the same calls "
        "{:.2f}\n",
        name, count / 1e6, 100 * shadow / count, count / calls, best.render * ns_a_ray,
        best.one_by_one * ns_a_ray, best.same_calls * ns_a_ray, (best.render - best.same_calls) * ns_a_ray,
        best.render / best.one_by_one, best.render / best.same_calls);
    return count;
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
    std::optional<bench::PeerMesh> peer;
    if (bench::has_peer())
        peer.emplace(world);
    else
        fmt::print("no peer: Embree's path tracer is in the Debian package embree-tools\n");
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
        const std::vector<Recorded> kept = recorded(arena, work, film);
        const Seconds best = timed(arena, work, kept, film);
        const double mray_per_s = tell(wanted.name, kept, best, threads) / best.render / 1e6;
        if (!peer) continue;
        if (const auto theirs = bench::peer_mray_per_s(*peer, work.settings.camera, picture.width_px,
                                                       picture.height_px, samples, threads))
            fmt::print(
                "    {:.1f} Mray/s; Embree's path tracer, one matte material and a point of light, {:.1f}\n",
                mray_per_s, *theirs);
    }
}
