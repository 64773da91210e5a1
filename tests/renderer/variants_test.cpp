// Pictures traced on one set of paths are each the whole light of its own world, and differ by nothing else.
#include "renderer/variants.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iterator>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/yaml_document.h"
#include "tests/support/small_world.h"

namespace rakelight {
namespace {

std::string work(const std::string& grout, const std::string& bed) {
    return "panel: {name: test piece, size: [36, 30]}\n"
           "stock: {sea: {like: aqua, thickness: 3}}\n"
           "tints: {again: {like: ochre}}\n"
           "fields: [{name: sea, opus: regulatum, piece: 9, joint: 1.8, mix: {sea: 70 %, slate: 30 %},"
           " bed: " +
           bed + ", grout: " + grout +
           "}]\n"
           "pictures: [{name: p, viewpoint: straight, size: [32, 28], most samples: 64, grain: 0.1 %}]\n"
           "viewpoints: [{name: straight, distance: 800, view width: 36}]\n";
}

struct Bench {
    Layout layout = read_layout_text(work("ochre", "white"), "c.yaml");
    Laying laying = lay(layout);
    World world = build_world(layout, laying);
    World built = world;
    Bvh bvh{world};

    MaterialSet dressed(const std::string& grout, const std::string& bed = "white") {
        return make_material_set(built, layout, laying, read_layout_text(work(grout, bed), "c.yaml"));
    }
    std::vector<VariantFilm> films(const std::vector<MaterialSet>& sets, std::uint64_t seed = 1,
                                   int samples = 64) {
        const VariantSurfaces surfaces = apply_variants(world, sets);
        Layout seeded = layout;  // the laying stays; another seed samples other paths
        seeded.panel.seed = seed;
        seeded.views.pictures[0].most_samples = samples;
        return render_variants(world, surfaces, bvh, seeded, seeded.views.pictures[0],
                               kinds_of_objects(world, layout.stock.size()));
    }
};

double mean_y(const Film& film) {
    double sum = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) sum += static_cast<double>(total_xyz(film, i).y);
    return sum / static_cast<double>(film.pixel_count());
}

TEST(Variants, EqualCellsDifferByExactlyNothing) {
    Bench bench;
    const auto films =
        bench.films({bench.dressed("ochre"), bench.dressed("charcoal"), bench.dressed("again")});
    for (std::size_t i = 0; i < films[0].film.pixel_count(); ++i)
        ASSERT_EQ(total_xyz(films[0].film, i), total_xyz(films[2].film, i)) << i;
    EXPECT_NE(mean_y(films[0].film), mean_y(films[1].film));
}

// The judge is the plain renderer on each world by itself.
TEST(Variants, EachPictureIsThatOfItsOwnWorld) {
    Bench bench;
    const std::vector<std::pair<std::string, std::string>> choices{
        {"ochre", "white"}, {"black", "white"}, {"white", "white"}, {"charcoal", "black"}};
    std::vector<MaterialSet> sets;
    for (const auto& [grout, bed] : choices) sets.push_back(bench.dressed(grout, bed));
    const auto films = bench.films(sets, 1, 256);
    for (std::size_t i = 0; i < choices.size(); ++i) {
        Layout layout = read_layout_text(work(choices[i].first, choices[i].second), "c.yaml");
        layout.views.pictures[0].most_samples = 256;
        const World world = build_world(layout, lay(layout));
        const Film alone = render(world, Bvh(world), layout, layout.views.pictures[0]);
        // 230,000 paths each; their own spread leaves under 1 % of the mean.
        const glm::dvec2 mean(mean_y(films[i].film), mean_y(alone));
        EXPECT_NEAR(mean.x / mean.y, 1, 0.01) << choices[i].first << " over " << choices[i].second;
    }
}

TEST(Variants, SharesAndMeansAddUpToThePicture) {
    Bench bench;
    const auto films = bench.films({bench.dressed("ochre"), bench.dressed("black")});
    for (const VariantFilm& one : films) {
        double share = 0, y = 0;
        for (const SeenLight& seen : one.seen) {
            share += seen.share;
            for (const glm::dvec3& xyz : seen.xyz) y += seen.share * xyz.y;
        }
        EXPECT_NEAR(share, 1, 1e-9);
        EXPECT_NEAR(y, mean_y(one.film), 1e-4 * y);  // films hold single precision
        for (const SeenLight& seen : one.seen)
            for (std::size_t g = 0; g < seen.xyz.size(); ++g)
                EXPECT_LE(seen.by_body[g].y, seen.xyz[g].y * (1 + 1e-9));
    }
}

// Spread of a difference between two cells over repeated renderings, against that of two cells that were
// sampled by different paths.
TEST(Variants, ADifferenceHasUnderAThirdOfTheNoise) {
    Bench bench;
    const std::vector<MaterialSet> pair{bench.dressed("ochre"), bench.dressed("sand")};
    constexpr int kTimes = 12;
    std::vector<std::vector<VariantFilm>> films;
    for (int t = 0; t < kTimes; ++t)
        films.push_back(bench.films(pair, static_cast<std::uint64_t>(t) + 1, 32));
    const auto spread = [&](auto&& difference) {
        double total = 0;
        for (std::size_t i = 0; i < films[0][0].film.pixel_count(); ++i) {
            double sum = 0, squares = 0;
            for (int t = 0; t < kTimes; ++t) {
                const double d = difference(t, i);
                sum += d;
                squares += d * d;
            }
            total += squares / kTimes - sum * sum / (kTimes * kTimes);
        }
        return std::sqrt(total);
    };
    const auto y = [&](int t, std::size_t which, std::size_t i) {
        return static_cast<double>(total_xyz(films[static_cast<std::size_t>(t)][which].film, i).y);
    };
    const double shared = spread([&](int t, std::size_t i) { return y(t, 1, i) - y(t, 0, i); });
    const double apart = spread([&](int t, std::size_t i) { return y((t + 1) % kTimes, 1, i) - y(t, 0, i); });
    EXPECT_GT(shared, 0);
    EXPECT_LT(shared, apart / 3) << shared << " of " << apart;
}

TEST(Variants, TheSameOnAnyNumberOfThreads) {
    Bench bench;
    const VariantSurfaces surfaces =
        apply_variants(bench.world, std::vector<MaterialSet>{bench.dressed("ochre"), bench.dressed("black")});
    const auto on = [&](int threads) {
        RenderOptions options;
        options.threads = threads;
        return render_variants(bench.world, surfaces, bench.bvh, bench.layout, bench.layout.views.pictures[0],
                               kinds_of_objects(bench.world, bench.layout.stock.size()), options);
    };
    const auto one = on(1), two = on(2);
    for (std::size_t f = 0; f < one.size(); ++f) {
        for (std::size_t i = 0; i < one[f].film.pixel_count(); ++i)
            ASSERT_EQ(total_xyz(one[f].film, i), total_xyz(two[f].film, i));
        for (std::size_t k = 0; k < kSeenKinds; ++k) EXPECT_EQ(one[f].seen[k].xyz, two[f].seen[k].xyz);
    }
}

TEST(Variants, ResinAndCementDoNotBounceAlike) {
    Bench bench;
    EXPECT_TRUE(can_share_paths(bench.dressed("ochre"), bench.dressed("charcoal", "black")));
    EXPECT_FALSE(can_share_paths(bench.dressed("ochre"), bench.dressed("epoxy-ochre")));
}

// Squares p wide, j apart, flat, of matte stuff under an even surround: the light mixes by area, and the mean
// of the picture is ((p / (p + j))^2 R1 + (1 - (p / (p + j))^2) R2) L. A matte plane sends reflectance times
// L.
// Every member of a surface by name, so that a new one breaks this line until it is asked for below: changed
// alone it either keeps paths from being shared, or is a colour and shown as another.
TEST(Variants, NoMemberOfASurfaceIsForgotten) {
    [[maybe_unused]] const auto& [face, kind, anisotropic, mean_albedo, base_norm, max_base_scale, matte,
                                  cosine, leaf, even, among, g, flat, thickness_mm, side_per_mm, side] =
        Surface();
    static const InterfaceTable another{};
    const auto set = [](const Surface& surface) {
        Object object;
        return MaterialSet{{object}, {surface}};
    };
    const auto with = [&](auto&& change) {
        Surface surface;
        change(surface);
        return set(surface);
    };
    const MaterialSet plain = set(Surface());
    EXPECT_TRUE(can_share_paths(plain, set(Surface())));
    const MaterialSet routes[] = {with([](Surface& s) { s.interface = &another; }),
                                  with([](Surface& s) { s.kind = Surface::Base::layered; }),
                                  with([](Surface& s) { s.anisotropic = true; }),
                                  with([](Surface& s) { s.base_norm = 1; }),
                                  with([](Surface& s) { s.matte.shape = 0.3f; }),
                                  with([](Surface& s) { s.matte.plain = 0.3f; }),
                                  with([](Surface& s) { s.matte.mean_albedo = 0.3f; }),
                                  with([](Surface& s) { s.cosine.inverse_index2 = 0.4f; }),
                                  with([](Surface& s) { s.cosine.first = 0.7f; }),
                                  with([](Surface& s) { s.cosine.per_cosine = 9; }),
                                  with([](Surface& s) { s.leaf.table = &another; }),
                                  with([](Surface& s) { s.leaf.clear = 0.5f; }),
                                  with([](Surface& s) { s.thickness_mm = 3; }),
                                  with([](Surface& s) { s.side_per_mm = 0.2f; })};
    for (const MaterialSet& route : routes)
        EXPECT_FALSE(can_share_paths(plain, route)) << &route - std::begin(routes);
    const MaterialSet colours[] = {with([](Surface& s) { s.mean_albedo = 0.5f; }),
                                   with([](Surface& s) { s.max_base_scale = 2; }),
                                   with([](Surface& s) { s.leaf.lobe_share = 0.5f; }),
                                   with([](Surface& s) { s.even[kBandCount - 1] = 0.1f; }),
                                   with([](Surface& s) { s.among[0] = 0.1f; }),
                                   with([](Surface& s) { s.g[kLayerNodes - 1][3] = 0.1f; }),
                                   with([](Surface& s) { s.flat[2] = 0.1f; }),
                                   with([](Surface& s) { s.side[kSidePlaces - 1][2] = 0.1f; })};
    for (const MaterialSet& colour : colours) {
        EXPECT_TRUE(can_share_paths(plain, colour)) << &colour - std::begin(colours);
        World world = empty_world();
        const VariantSurfaces worn = apply_variants(world, std::vector{plain, colour});
        ASSERT_EQ(worn.differs.size(), 1u);
        EXPECT_TRUE(worn.differs[0]) << &colour - std::begin(colours);
    }
}

// The same of an object: only the numbers that point to its surfaces and its name may differ.
TEST(Variants, NoMemberOfAThingIsForgotten) {
    [[maybe_unused]] const auto& [surface, glassy, roughened, threshold, patch_mm, grain, timber, along,
                                  shift_mm, seed, marks, upright, sheet, edges, first_triangle, piece,
                                  material] = Object();
    const auto with = [](auto&& change) {
        Object object;
        change(object);
        return MaterialSet{{object}, {Surface(), Surface()}};
    };
    const MaterialSet plain = with([](Object&) {});
    const MaterialSet others[] = {with([](Object& t) { t.glassy_surface = 1; }),
                                  with([](Object& t) { t.glassy_threshold = 1; }),
                                  with([](Object& t) { t.glassy_patch_mm = 2; }),
                                  with([](Object& t) { t.grain.contrast = 0.1f; }),
                                  with([](Object& t) { t.grain.size_mm = 3; }),
                                  with([](Object& t) { t.grain.band_ratio = 3; }),
                                  with([](Object& t) { t.timber = true; }),
                                  with([](Object& t) {
                                      t.along = {0, 1, 0};
                                  }),
                                  with([](Object& t) { t.noise_shift_mm.z = 1; }),
                                  with([](Object& t) { t.upright = true; }),
                                  with([](Object& t) { t.seed = 1; }),
                                  with([](Object& t) { t.marks = 0; }),
                                  with([](Object& t) {
                                      t.sheet = {0, 1};
                                  }),
                                  with([](Object& t) { t.edges = 1; }),
                                  with([](Object& t) { t.first_triangle = 1; }),
                                  with([](Object& t) { t.piece = 1; })};
    for (const MaterialSet& other : others)
        EXPECT_FALSE(can_share_paths(plain, other)) << &other - std::begin(others);
    EXPECT_TRUE(
        can_share_paths(plain, with([](Object& t) { t.surface = t.roughened_surface = 1, t.material = 2; })));
}

// All looks of a marked material keep their order, each with its own surface in each picture.
TEST(Variants, LooksOfAMarkedMaterialStayTogether) {
    Marks marks;
    marks.thread_count = 1;
    const auto set = [&](float shade) {
        MaterialSet s;
        s.objects.resize(2);
        s.objects[0].marks = 0;
        s.objects[1].surface = static_cast<std::uint32_t>(marks.looks());
        s.marks = {marks};
        for (int i = 0; i <= marks.looks(); ++i) {
            Surface look;
            look.even = SampledSpectrum(shade + 0.01f * static_cast<float>(i));
            s.surfaces.push_back(look);
        }
        return s;
    };
    const std::vector sets{set(0.2f), set(0.5f)};
    EXPECT_TRUE(can_share_paths(sets[0], sets[1]));
    World world = empty_world();
    const VariantSurfaces worn = apply_variants(world, sets);
    ASSERT_EQ(world.marks.size(), 1u);
    for (std::uint32_t look = 0; look < static_cast<std::uint32_t>(marks.looks()); ++look)
        for (std::size_t picture = 0; picture < 2; ++picture)
            EXPECT_EQ(worn.of[picture][world.objects[0].surface + look], sets[picture].surfaces[look])
                << look;
    EXPECT_EQ(world.surfaces[world.objects[1].surface], sets[0].surfaces.back());
}

TEST(Variants, LightMixesByArea) {
    constexpr double kPiece = 8, kJoint = 2, kPitch = kPiece + kJoint;
    constexpr int kAcross = 6;
    World world = empty_world();
    Object piece = object_of(world, matte(0.6f)), joint = object_of(world, matte(0.15f));
    piece.piece = 1;
    joint.material = 2;
    const double half = kPitch * kAcross / 2;
    for (int y = 0; y < kAcross; ++y)
        for (int x = 0; x < kAcross; ++x)
            add(world,
                rectangle_mesh({x * kPitch - half + kJoint / 2, y * kPitch - half + kJoint / 2, 0.001},
                               {kPiece, 0, 0}, {0, kPiece, 0}),
                glm::mat4(1), piece);
    add(world, floor_square(4 * half), glm::mat4(1), joint);
    finish(world);
    world.panel_size_mm = {2 * half, 2 * half, 0};
    world.materials = {"piece", "joint"};
    world.environment = UniformEnvironment{100, tristimulus_weights(*find_illuminant("D65")), 0};
    Layout layout;
    Viewpoint view;
    view.name = "v";
    view.eye_mm = {0, 0, 700};
    view.look_at_mm = {0, 0, 0.001};
    view.view_width_mm = 2 * half;
    layout.views.viewpoints = {view};
    Picture picture;
    picture.viewpoint = "v";
    picture.width_px = picture.height_px = 60;
    picture.most_samples = 64;
    const Bvh bvh(world);
    const MaterialSet set{world.objects, world.surfaces};
    const VariantSurfaces surfaces = apply_variants(world, std::vector<MaterialSet>{set});
    const auto films = render_variants(world, surfaces, bvh, layout, picture, kinds_of_objects(world, 1));
    const double cover = (kPiece / kPitch) * (kPiece / kPitch);
    const auto& [glass, pieces, joints, other] = films[0].seen;
    EXPECT_EQ(glass.share, 0);
    EXPECT_NEAR(pieces.share, cover, 0.01 * cover);
    EXPECT_NEAR(joints.share, 1 - cover, 0.01);
    EXPECT_EQ(other.share, 0);
    const double expected = (cover * 0.6 + (1 - cover) * 0.15) * 100;
    EXPECT_NEAR(mean_y(films[0].film), expected, 0.01 * expected);
    EXPECT_NEAR(pieces.xyz[0].y, 60, 0.3);
    EXPECT_NEAR(joints.xyz[0].y, 15, 0.1);
}

}  // namespace
}  // namespace rakelight
