// Eight surfaces at once, as paths meet them: against closed forms, and against the same surface in all
// lanes.
#include "materials/optics/surface_lanes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "materials/stock/stock.h"
#include "tests/support/optics_samples.h"

namespace rakelight {
namespace {

// All that is in stock, bare, faced, mirror-smooth and layered, in an order that mixes kinds within an eight.
std::vector<Surface> all_surfaces(InterfaceTables& cache) {
    std::vector<Surface> r;
    for (const std::string& name : stock_names()) {
        Material m = *find_stock(name);
        r.push_back(make_surface(m, m.thickness_mm, SampledSpectrum(0.6f), 1, cache));
        m.roughness = 0;
        r.push_back(make_surface(m, m.thickness_mm, SampledSpectrum(0.6f), 1, cache));
        m.roughness = 0.2f;
        m.stretch = 5;
        r.push_back(make_surface(m, m.thickness_mm, SampledSpectrum(0.6f), 1, cache));
        m.leaf = Leaf::gold;
        r.push_back(make_surface(m, m.thickness_mm, SampledSpectrum(0.6f), 1, cache));
        if (m.glassy_share > 0) r.push_back(make_glassy_surface(m, 1, cache));
    }
    return r;
}

class SurfaceLanesTest : public testing::Test {
  protected:
    float uniform() { return static_cast<float>(engine_() >> 8) / 16777216.f; }
    glm::vec3 direction() { return cosine_direction(glm::vec2(uniform(), uniform())); }
    const Surface& any_surface() { return surfaces_[engine_() % surfaces_.size()]; }

    InterfaceTables cache_;
    std::vector<Surface> surfaces_ = all_surfaces(cache_);
    std::mt19937 engine_{5};
};

// Rounding of single precision.
void expect_alike(float lanes, float one) {
    EXPECT_NEAR(lanes, one, 1e-4f * std::abs(one) + 1e-7f);
}

// Bare stuff is Lambert's: reflectance / pi times the cosine, whatever the directions.
TEST_F(SurfaceLanesTest, BareStuffIsLamberts) {
    Material m = *find_stock("slate");
    m.index = 1;
    m.matte_deg = 0;
    m.reflectance = SampledSpectrum(0.4f);
    const Surface surface = make_surface(m, 8, SampledSpectrum(0.0f), 1, cache_);
    for (int turn = 0; turn < 100; ++turn) {
        const SurfaceLanes same(surface, direction());
        LaneArray<glm::vec3> in;
        for (glm::vec3& each : in) each = direction();
        const LobeLanes lobes =
            same.evaluate(gather3([&](std::size_t k) -> const glm::vec3& { return in[k]; }));
        for (std::size_t k = 0; k < kLanes; ++k) {
            const float cosine_over_pi = in[k].z / std::numbers::pi_v<float>;
            expect_alike(same.base(k, lobes.base)[7], 0.4f * cosine_over_pi);
            expect_alike(lobes.density[k], cosine_over_pi);
            EXPECT_EQ(lobes.interface[k], 0);
        }
    }
}

// A smooth face sends on what Fresnel's equations say, over the chance with which it is taken.
TEST_F(SurfaceLanesTest, AMirrorSendsOnFresnelsShare) {
    Material m = *find_stock("jet");
    m.index = 1.5f;
    m.roughness = 0;
    const Surface surface = make_surface(m, 6, SampledSpectrum(0.5f), 1, cache_);
    for (int turn = 0; turn < 100; ++turn) {
        const glm::vec3 out = direction();
        const double i = std::acos(static_cast<double>(out.z)), t = std::asin(std::sin(i) / 1.5);
        const double s = -std::sin(i - t) / std::sin(i + t), p = std::tan(i - t) / std::tan(i + t);
        const SurfaceLanes same(surface, out);
        const float expected = static_cast<float>((s * s + p * p) / 2);
        EXPECT_NEAR(same.mirror_weight()[0] * same.interface_probability()[0], expected, 1e-4);
    }
}

// A white furnace: followed at random, white stuff under a rough face sends on all light in the mean.
TEST_F(SurfaceLanesTest, AWhiteBodyUnderARoughFaceLosesNothing) {
    for (const float roughness : {0.15f, 0.4f})
        for (const float stretch : {1.0f, 4.0f}) {
            Material m = *find_stock("gallery-white");
            m.index = 1.5f;
            m.roughness = roughness;
            m.stretch = stretch;
            m.haze = 0;
            m.reflectance = SampledSpectrum(1.0f);
            const Surface surface = make_surface(m, 6, SampledSpectrum(0.0f), 1, cache_);
            for (const float z : {0.3f, 0.9f}) {
                const SurfaceLanes same(surface, rakelight::direction(static_cast<double>(z), 0.7));
                double sum = 0;
                constexpr int kTurns = 20000;
                for (int turn = 0; turn < kTurns; ++turn) {
                    LaneArray<glm::vec3> u;
                    for (std::size_t k = 0; k < kLanes; ++k)
                        u[k] = spread_point(turn * static_cast<int>(kLanes) + static_cast<int>(k));
                    const Vec3s number = gather3([&](std::size_t k) -> const glm::vec3& { return u[k]; });
                    const SurfaceLanes::Taken taken = same.sample(number.x, number.y, number.z);
                    const LobeLanes lobes = same.evaluate(taken.in);
                    for (std::size_t k = 0; k < kLanes; ++k) {
                        if (!(taken.in.z[k] > 0)) continue;
                        const float body = same.base(k, lobes.base)[7];
                        sum += static_cast<double>((body + lobes.interface[k]) / lobes.density[k]);
                    }
                }
                EXPECT_NEAR(sum / (kTurns * static_cast<double>(kLanes)), 1, 0.01)
                    << roughness << ' ' << stretch << ' ' << z;
            }
        }
}

// Helmholtz: light goes the same way back. Of all that is in stock, glass, stone and leaf.
TEST_F(SurfaceLanesTest, IsReciprocal) {
    for (const Surface& surface : surfaces_) {
        const glm::vec3 one = direction(), other = direction();
        const SurfaceLanes there(surface, one), back(surface, other);
        const LobeLanes to = there.evaluate(broadcast3(other)), fro = back.evaluate(broadcast3(one));
        for (const int b : {0, 7, 15})
            EXPECT_NEAR(there.base(0, to.base)[b] * one.z, back.base(0, fro.base)[b] * other.z,
                        1e-3f * there.base(0, to.base)[b] * one.z + 1e-6f);
        EXPECT_NEAR(to.interface[0] * one.z, fro.interface[0] * other.z,
                    1e-3f * to.interface[0] * one.z + 1e-6f);
    }
}

// Grain deepens or lightens the base, and nothing else.
TEST_F(SurfaceLanesTest, GrainScalesTheBaseAlone) {
    for (const Surface& surface : surfaces_) {
        const glm::vec3 out = direction();
        const Vec3s in = broadcast3(direction());
        const SurfaceLanes usual(surface, out), dark(surface, out, 0.5f);
        const LobeLanes a = usual.evaluate(in), b = dark.evaluate(in);
        for (int i = 0; i < kBandCount; ++i)
            expect_alike(dark.base(0, b.base)[i], 0.5f * usual.base(0, a.base)[i]);
        EXPECT_EQ(b.interface[0], a.interface[0]);
        EXPECT_EQ(b.density[0], a.density[0]);
    }
}

// What a lane holds does not depend, to the bit, on the other kinds of surface beside it.
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
            const SurfaceLanes alone(*surfaces[k], out[k], scale[k], seen[k] > 0);
            const LobeLanes expected = alone.evaluate(broadcast3(in[k]));
            EXPECT_EQ(lanes.base(k, lobes.base), alone.base(0, expected.base));
            EXPECT_EQ(lobes.interface[k], expected.interface[0]);
            EXPECT_EQ(lobes.density[k], expected.density[0]);

            const SurfaceLanes::Taken one =
                alone.sample(broadcast(u[k].x), broadcast(u[k].y), broadcast(u[k].z));
            EXPECT_EQ(taken.mirror[k], one.mirror[0]);
            EXPECT_EQ(taken.from_interface[k], one.from_interface[0]);
            EXPECT_EQ(taken.in.x[k], one.in.x[0]);
            EXPECT_EQ(taken.in.y[k], one.in.y[0]);
            EXPECT_EQ(taken.in.z[k], one.in.z[0]);
            if (one.mirror[0]) {
                EXPECT_EQ(mirror_weight[k], alone.mirror_weight()[0]);
            }
        }
    }
}

// A face that stands for its own curve: rays meet the curve's shadows and find what hides it, so that each
// place of it mirrors Fresnel's share of the light, and no facet is in the way of another (the weight of a
// visible normal, Heitz 2018, is F G2 / G1).
TEST_F(SurfaceLanesTest, AWidenedMirrorSendsOnFresnelsShareToo) {
    Material m = *find_stock("jet");
    m.index = 1.5f;
    m.roughness = 0;
    const Surface surface = make_surface(m, 6, SampledSpectrum(0.5f), 1, cache_);
    LaneArray<const Surface*> surfaces;
    surfaces.fill(&surface);
    int above = 0;
    for (int turn = 0; turn < 200; ++turn) {
        const glm::vec3 out = direction();
        const Widening wide{broadcast(0.1f), broadcast(0.02f)};
        const SurfaceLanes lanes(surfaces, broadcast3(out), broadcast(0), broadcast(1), broadcast(-1),
                                 broadcast3(glm::vec3(0, 0, 1)), wide);
        const auto taken = lanes.sample(Floats{}, broadcast(uniform()), broadcast(uniform()));
        const glm::vec3 in(taken.in.x[0], taken.in.y[0], taken.in.z[0]);
        if (in.z < 0.01f) continue;
        ++above;
        const LobeLanes lobes = lanes.evaluate(taken.in);
        const float base_density =
            (1 - lanes.interface_probability()[0]) * in.z * std::numbers::inv_pi_v<float>;
        const float share =
            lobes.interface[0] / (lobes.density[0] - base_density) * lanes.interface_probability()[0];
        const float toward = glm::dot(out, glm::normalize(out + in));
        EXPECT_NEAR(share / dielectric_reflectance(toward, 1.5f), 1, 2e-3f) << out.z << " to " << in.z;
    }
    EXPECT_GT(above, 100);
}

}  // namespace
}  // namespace rakelight
