#include "materials/optics/ggx.h"

#include <gtest/gtest.h>

#include "tests/support/optics_samples.h"

namespace rakelight {
namespace {

constexpr double kPi = 3.14159265358979323846;

// Sum of f(facet normal) over the hemisphere, in the slope t = tan / alpha = u / (1 - u), where GGX is
// smooth; the solid angle of a step in slopes is cos^3 times it.
template <class F>
double over_facets(const Slopes& s, F&& f) {
    constexpr int kSlopes = 2000, kTurns = 64;
    double total = 0;
    for (int i = 0; i < kSlopes; ++i)
        for (int k = 0; k < kTurns; ++k) {
            const double u = (i + 0.5) / kSlopes, t = u / (1 - u), phi = 2 * kPi * (k + 0.5) / kTurns;
            const glm::dvec3 way(s.alpha * s.along * t * std::cos(phi),
                                 s.alpha * s.across * t * std::sin(phi), 1);
            const double z = 1 / glm::length(way);
            total += s.alpha * s.alpha * t / ((1 - u) * (1 - u)) * z * z * z * f(glm::vec3(way * z));
        }
    return total * 2 * kPi / (kSlopes * kTurns);
}

const Slopes kSlopesTried[] = {slopes_of(0.02f), slopes_of(0.1f),    slopes_of(0.5f),
                               slopes_of(1),     slopes_of(0.2f, 4), slopes_of(0.3f, 10)};

TEST(Ggx, ProjectedFacetAreaIsOne) {  // Walter et al. 2007, eq. 4
    for (const Slopes& s : kSlopesTried)
        EXPECT_NEAR(over_facets(s, [&](const glm::vec3& h) { return ggx_density(h, s) * h.z; }), 1, 1e-3);
}

TEST(Ggx, VisibleAreaIsTheCosine) {  // Heitz 2014, eq. 10: fixes G1, drawn out or not
    for (const Slopes& s : kSlopesTried)
        for (const double z : {0.1, 0.5, 0.95})
            for (const double phi : {0.0, 0.6, 1.5}) {
                const glm::vec3 out = direction(z, phi);
                const double g1 = 2 * z / (z + ggx_reach(out, s));
                const double seen = over_facets(s, [&](const glm::vec3& h) {
                    return g1 * std::fmax(0.f, glm::dot(out, h)) * ggx_density(h, s);
                });
                EXPECT_NEAR(seen, z, 2e-3 * z) << s.alpha << ' ' << s.across << ' ' << z << ' ' << phi;
            }
}

// Half of the greatest density lies where (slope / alpha)^2 = sqrt(2) - 1 (from the distribution itself,
// apart from the fourth power of the cosine): across the grain farther out than along it, by `stretch`.
TEST(Ggx, IsDrawnOutAcrossTheGrain) {
    const Slopes s = slopes_of(0.1f, 9);
    const double reach = 0.1 * std::sqrt(std::sqrt(2.0) - 1);
    const auto share = [&](double x, double y) {
        const glm::dvec3 h = glm::normalize(glm::dvec3(x, y, 1));
        return ggx_density(glm::vec3(h), s) / ggx_density(glm::vec3(0, 0, 1), s) * std::pow(h.z, 4);
    };
    EXPECT_NEAR(share(reach / 3, 0), 0.5, 1e-3);
    EXPECT_NEAR(share(0, reach * 3), 0.5, 1e-3);
}

TEST(Ggx, SamplesFollowTheVisibleNormals) {
    for (const Slopes& s : {slopes_of(0.1f), slopes_of(0.5f), slopes_of(1), slopes_of(0.3f, 6)})
        for (const double z : {0.15, 0.6, 1.0}) {
            const glm::vec3 out = direction(z, 0.7);
            const double g1 = 2 * z / (z + ggx_reach(out, s));
            // First and second moments of the sampled normals against those of the density D G1 max(0, o.h) /
            // z.
            glm::dvec3 mean(0), square(0);
            constexpr int kCount = 512;
            for (int i = 0; i < kCount; ++i)
                for (int j = 0; j < kCount; ++j) {
                    const glm::dvec3 h =
                        ggx_visible_normal(out, s, {(i + 0.5f) / kCount, (j + 0.5f) / kCount});
                    mean += h / double(kCount * kCount);
                    square += h * h / double(kCount * kCount);
                }
            for (int axis = 0; axis < 3; ++axis) {
                const auto moment = [&](int power) {
                    return over_facets(s, [&](const glm::vec3& h) {
                        return std::pow(h[axis], power) * g1 * std::fmax(0.f, glm::dot(out, h)) *
                               ggx_density(h, s) / z;
                    });
                };
                EXPECT_NEAR(mean[axis], moment(1), 2e-3);
                EXPECT_NEAR(square[axis], moment(2), 2e-3);
            }
        }
}

TEST(Circle, IsTheCircle) {
    for (int i = 0; i <= 1000; ++i) {
        const glm::vec2 p = circle_point(static_cast<float>(i) / 1000);
        EXPECT_NEAR(p.x, std::cos(2 * kPi * i / 1000), 6e-7);
        EXPECT_NEAR(p.y, std::sin(2 * kPi * i / 1000), 6e-7);
    }
}

}  // namespace
}  // namespace rakelight
