// A picture traced in passes is the picture traced tile by tile, to the bit, wherever the passes are stopped,
// and also when they go on in another process (by what each_part tells).
#include "renderer/passes.h"

#include <gtest/gtest.h>

#include <cstring>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

constexpr const char* kPanel =
    "panel: {name: trial, size: [100, 80]}\n"
    "fields: [{name: all, piece: 14, joint: 1.5, mix: {deep-teal: 50 %, foam-white: 50 %}}]\n"
    "lamps:\n"
    "  - {name: spot, at: [-300, 2000, 700], aim: [0, 1450, 0], lumen: 500, beam angle: 30}\n"
    "  - {name: bulb, form: bulb, at: [900, 2300, 1200], lumen: 500}\n"
    "pictures: [{name: straight, size: [70, 50], grain: 6 %, most samples: 88}]\n";  // no whole tiles nor
                                                                                     // rounds

struct Trial {
    Layout layout = read_layout_text(kPanel, "trial.yaml");
    World world = build_world(layout, lay(layout));
    Bvh bvh{world};
    const Picture& picture = layout.views.pictures.front();
};

void expect_same(const Film& a, const Film& b) {
    EXPECT_EQ(a.xyz, b.xyz);
    EXPECT_EQ(a.mirrored, b.mirrored);
    EXPECT_EQ(a.error, b.error);
    EXPECT_EQ(a.samples, b.samples);
    EXPECT_EQ(a.features.depth_mm, b.features.depth_mm);
    EXPECT_EQ(a.features.normal, b.features.normal);
    EXPECT_EQ(a.features.piece, b.features.piece);
    EXPECT_EQ(a.features.material, b.features.material);
    EXPECT_EQ(a.features.first_surface_share, b.features.first_surface_share);
}

TEST(Passes, TheSameFilmAsAtOneGo) {
    const Trial t;
    RenderOptions options;
    options.mirrored = true;
    Passes passes(t.world, t.bvh, t.layout, t.picture, options);
    std::vector<int> samples;
    double share = 0;
    while (!passes.is_done()) {
        passes.go_on();
        samples.push_back(passes.samples());
        EXPECT_GT(passes.share(), share);
        share = passes.share();
    }
    EXPECT_EQ(samples.front(), 16);
    EXPECT_GT(samples.size(), 2u);
    EXPECT_EQ(share, 1);
    const Film whole = render(t.world, t.bvh, t.layout, t.picture, options);
    expect_same(passes.film(), whole);
    EXPECT_NE(whole.samples.front(), 0);
}

TEST(Passes, StoppedAnywhereAndGoneOnWithElsewhere) {
    const Trial t;
    const Film whole = render(t.world, t.bvh, t.layout, t.picture);
    for (const int tiles : {1, 7, 23, 40}) {
        int left = tiles;
        RenderOptions options;
        options.cancelled = [&left] { return --left <= 0; };
        Passes stopped(t.world, t.bvh, t.layout, t.picture, options);
        try {
            while (!stopped.is_done()) stopped.go_on();
        } catch (const Cancelled&) {
        }
        std::vector<std::byte> kept;
        stopped.each_part(
            [&](std::span<std::byte> part) { kept.insert(kept.end(), part.begin(), part.end()); });
        Passes on(t.world, t.bvh, t.layout, t.picture, {});
        std::size_t at = 0;
        on.each_part([&](std::span<std::byte> part) {
            std::copy_n(kept.begin() + static_cast<std::ptrdiff_t>(at), part.size(), part.begin());
            at += part.size();
        });
        EXPECT_EQ(at, kept.size());
        EXPECT_EQ(on.share(), stopped.share());
        while (!on.is_done()) on.go_on();
        expect_same(on.film(), whole);
    }
}

}  // namespace
}  // namespace rakelight
