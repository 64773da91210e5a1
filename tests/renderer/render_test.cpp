// Same input, same picture: to the bit, on any number of threads and in any split.
#include "renderer/render.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <algorithm>

#include "renderer/light_meter.h"
#include "renderer/tile_samples.h"
#include "scene/laying/laying.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

constexpr const char* kLayout = R"(
panel:
  name: a corner of glass
  size: [120, 90]
  substrate: {material: cement-board}
stock:
  sea: {like: deep-teal}
fields:
  - name: water
    opus: musivum
    guides: [{smooth: [[0, 20], [60, 50], [120, 30]]}]
    piece: [12, 9]
    joint: 1.5
    mix: {sea: 60 %, slag: 40 %}
    bed: white
    grout: charcoal
pictures:
  - {name: small, viewpoint: straight, size: [70, 53], most samples: 48, grain: 5 %}
)";

struct Scene {
    Layout layout = read_layout_text(kLayout, "corner.yaml");
    World world = build_world(layout, lay(layout));
    Bvh bvh{world};

    Film film(const RenderOptions& options) const {
        return render(world, bvh, layout, layout.views.pictures[0], options);
    }
};

bool same(const Film& a, const Film& b, const RowRange& rows) {
    const std::size_t pixels =
        static_cast<std::size_t>(rows.end_row - rows.first_row) * static_cast<std::size_t>(a.width);
    for (std::size_t i = 0; i < pixels; ++i) {
        const std::size_t p = a.row_start(rows.first_row) + i, q = b.row_start(rows.first_row) + i;
        for (std::size_t g = 0; g < a.groups.size(); ++g)
            if (a.xyz[g][p] != b.xyz[g][q]) return false;
        if (a.error[p] != b.error[q] || a.samples[p] != b.samples[q] ||
            a.features.piece[p] != b.features.piece[q] || a.features.depth_mm[p] != b.features.depth_mm[q] ||
            a.features.first_surface_share[p] != b.features.first_surface_share[q])
            return false;
    }
    return true;
}

}  // namespace

TEST(Render, SameOnOneAndTwoThreads) {
    const Scene scene;
    const Film one = scene.film({.threads = 1});
    const Film two = scene.film({.threads = 2});
    EXPECT_TRUE(same(one, two, {0, one.height}));
    double total = 0;
    for (std::size_t p = 0; p < one.pixel_count(); ++p) total += total_xyz(one, p).y;
    EXPECT_GT(total, 0);
}

TEST(Render, SameInTwoHalves) {
    const Scene scene;
    const Film whole = scene.film({});
    for (const int cut : {16, 21, 40}) {  // on and off the edge of a tile
        const Film upper = scene.film({.rows = RowRange{0, cut}});
        const Film lower = scene.film({.rows = RowRange{cut, whole.height}});
        EXPECT_EQ(upper.pixel_count() + lower.pixel_count(), whole.pixel_count())
            << "memory for its rows alone";
        EXPECT_TRUE(same(whole, upper, {0, cut})) << cut;
        EXPECT_TRUE(same(whole, lower, {cut, whole.height})) << cut;
    }
}

// What the first face mirrors of each lamp adds up to what it mirrors in all, and asking changes nothing.
TEST(Render, MirroredLightOfEachLampAddsUp) {
    const Scene scene;
    const Film plain = scene.film({});
    const Film film = scene.film({.mirrored = true});
    EXPECT_TRUE(plain.mirrored.empty());
    EXPECT_TRUE(same(plain, film, {0, film.height}));
    ASSERT_EQ(film.mirrored.size(), film.groups.size());
    double all = 0;
    for (std::size_t p = 0; p < film.pixel_count(); ++p) {
        double sum = 0;
        for (std::size_t g = 0; g < film.groups.size(); ++g) {
            EXPECT_LE(film.mirrored[g][p], film.xyz[g][p].y * 1.0001f + 1e-6f);
            sum += static_cast<double>(film.mirrored[g][p]);
        }
        const double share = film.features.first_surface_share[p];
        EXPECT_NEAR(sum, share * static_cast<double>(total_xyz(film, p).y), 1e-4 * sum + 1e-6);
        all += sum;
    }
    EXPECT_GT(all, 0);
}

TEST(Render, SameWhenBuiltAgain) {
    const Film first = Scene().film({});
    const Film again = Scene().film({});
    EXPECT_TRUE(same(first, again, {0, first.height}));
}

// The light on the panel is metered once: a picture takes the card it is told, and meters for itself to the
// same bits when it is told none. A brilliant card makes all that is seen dark beside it, and sampling stops
// at the first look.
TEST(Render, TakesTheCardItIsTold) {
    const Scene scene;
    const auto lux = panel_illuminance_xyz(
        scene.world, scene.bvh, lamps_of_picture(scene.world, scene.layout, scene.layout.views.pictures[0]));
    const Film plain = scene.film({});
    EXPECT_TRUE(same(plain, scene.film({.card_cd_per_m2 = grey_card_cd_per_m2(lux)}), {0, plain.height}));
    const Film brilliant = scene.film({.card_cd_per_m2 = 1e9});
    EXPECT_EQ(*std::max_element(brilliant.samples.begin(), brilliant.samples.end()), 2 * kSamplesARound);
    EXPECT_GT(*std::max_element(plain.samples.begin(), plain.samples.end()), 2 * kSamplesARound);
}

// Added up path by path, whoever traced them; 300 paths are two wavefronts and a part of one.
TEST(Meter, SameOnAnyNumberOfThreads) {
    const Scene scene;
    const auto read = [&](int threads) {
        const tbb::global_control most(tbb::global_control::max_allowed_parallelism,
                                       static_cast<std::size_t>(threads));
        std::vector<glm::dvec3> all = panel_illuminance_xyz(scene.world, scene.bvh, scene.world.emitters);
        for (const glm::dvec3& xyz :
             illuminance_xyz(scene.world, scene.bvh, scene.world.emitters, {0, 0, 30}, {0, 0, 1}, 300))
            all.push_back(xyz);
        return all;
    };
    const auto one = read(1);
    EXPECT_GT(one[0].y, 0);
    for (const int threads : {2, 3, 7}) EXPECT_EQ(one, read(threads)) << threads;
}

TEST(Render, StopsWhenAsked) {
    const Scene scene;
    EXPECT_THROW(scene.film({.cancelled = [] { return true; }}), Cancelled);
}

TEST(Render, UnknownNamesAreRefused) {
    const Scene scene;
    Picture picture = scene.layout.views.pictures[0];
    picture.viewpoint = "nowhere";
    EXPECT_THROW(render(scene.world, scene.bvh, scene.layout, picture), std::invalid_argument);
    picture = scene.layout.views.pictures[0];
    picture.lamps = {"no such lamp"};
    EXPECT_THROW(render(scene.world, scene.bvh, scene.layout, picture), std::invalid_argument);
}
