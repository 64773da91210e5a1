// Eight surfaces at once against one at a time: surface.h is judged by its own tests, and judges these.
#include "materials/optics/surface_lanes.h"

#include <gtest/gtest.h>

#include <random>
#include <vector>

#include "materials/stock/stock.h"

namespace rakelight {
namespace {

// All that is in stock, bare, faced, mirror-smooth and layered, in an order that mixes kinds within an eight.
std::vector<Surface> all_surfaces(FaceTables& cache) {
    std::vector<Surface> r;
    for (const std::string& name : stock_names()) {
        Material m = *find_stock(name);
        r.push_back(make_surface(m, m.thickness_mm, Bands(0.6f), 1, cache));
        m.roughness = 0;
        r.push_back(make_surface(m, m.thickness_mm, Bands(0.6f), 1, cache));
        m.roughness = 0.2f;
        m.stretch = 5;
        r.push_back(make_surface(m, m.thickness_mm, Bands(0.6f), 1, cache));
        m.leaf = Leaf::gold;
        r.push_back(make_surface(m, m.thickness_mm, Bands(0.6f), 1, cache));
        if (m.glassy_share > 0) r.push_back(make_glassy_surface(m, 1, cache));
    }
    return r;
}

class SurfaceLanesTest : public testing::Test {
  protected:
    float uniform() { return static_cast<float>(engine_() >> 8) / 16777216.f; }
    glm::vec3 direction() { return cosine_direction(glm::vec2(uniform(), uniform())); }
    const Surface& any_surface() { return surfaces_[engine_() % surfaces_.size()]; }

    FaceTables cache_;
    std::vector<Surface> surfaces_ = all_surfaces(cache_);
    std::mt19937 engine_{5};
};

// Rounding: both are the same formulas in single precision.
void expect_alike(float lanes, float one) {
    EXPECT_NEAR(lanes, one, 1e-4f * std::abs(one) + 1e-7f);
}

TEST_F(SurfaceLanesTest, EachLaneIsItsSurfaceAlone) {
    for (int turn = 0; turn < 1000; ++turn) {
        LaneArray<const Surface*> surfaces;
        LaneArray<glm::vec3> out, in, u;
        LaneArray<float> scale, seen;
        for (std::size_t k = 0; k < kLanes; ++k) {
            surfaces[k] = &any_surface();
            out[k] = direction();
            in[k] = direction();
            u[k] = {uniform(), uniform(), uniform()};
            scale[k] = 0.5f + 0.5f * uniform();
            seen[k] = engine_() & 1 ? 1.0f : 0.0f;
        }
        const auto of = [](const auto& a) { return gather([&](std::size_t k) { return a[k]; }); };
        const auto of3 = [](const auto& a) {
            return gather3([&](std::size_t k) -> const glm::vec3& { return a[k]; });
        };
        const SurfaceLanes lanes(surfaces, of3(out), of(scale), of(seen));
        const LobeLanes lobes = lanes.evaluate(of3(in));
        const Vec3s number = of3(u);
        const SurfaceLanes::Taken taken = lanes.sample(number.x, number.y, number.z);
        const Floats mirror_weight = lanes.mirror_weight();
        for (std::size_t k = 0; k < kLanes; ++k) {
            const Surface& s = *surfaces[k];
            const float chance = face_chance(s, out[k], seen[k] > 0);
            float density = 0;
            const Lobes one = evaluate(s, out[k], in[k], scale[k], chance, density);
            const Bands body = lanes.body(k, lobes.body);
            for (int i = 0; i < kBandCount; ++i) expect_alike(body[i], one.body[i]);
            expect_alike(lobes.face[k], one.face);
            expect_alike(lobes.density[k], density);

            Bounce bounce;
            if (!sample(s, out[k], chance, u[k], scale[k], bounce)) continue;
            EXPECT_EQ(taken.mirror[k] != 0, bounce.mirror);
            EXPECT_EQ(taken.from_face[k] != 0, bounce.from_face);
            EXPECT_NEAR(taken.in.x[k], bounce.in.x, 1e-5);
            EXPECT_NEAR(taken.in.y[k], bounce.in.y, 1e-5);
            EXPECT_NEAR(taken.in.z[k], bounce.in.z, 1e-5);
            if (bounce.mirror) expect_alike(mirror_weight[k], bounce.lobes.face / bounce.pdf);
        }
    }
}

}  // namespace
}  // namespace rakelight
