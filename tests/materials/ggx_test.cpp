#include "materials/ggx.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

constexpr double kPi = 3.14159265358979323846;

glm::vec3 direction(double z, double phi) {
    const double r = std::sqrt(1 - z * z);
    return glm::vec3(r * std::cos(phi), r * std::sin(phi), z);
}

// Sum of f(facet normal) over the hemisphere, in the slope t = tan / alpha = u / (1 - u), where GGX is
// smooth.
template <class F>
double over_facets(double alpha, F&& f) {
    constexpr int kSlopes = 2000, kTurns = 64;
    double total = 0;
    for (int i = 0; i < kSlopes; ++i) {
        const double u = (i + 0.5) / kSlopes, t = alpha * u / (1 - u), z = 1 / std::sqrt(1 + t * t);
        const double jacobian = alpha / ((1 - u) * (1 - u)) * t * z * z * z;  // solid angle per u and turn
        for (int k = 0; k < kTurns; ++k) total += jacobian * f(direction(z, 2 * kPi * (k + 0.5) / kTurns));
    }
    return total * 2 * kPi / (kSlopes * kTurns);
}

TEST(Ggx, ProjectedFacetAreaIsOne) {  // Walter et al. 2007, eq. 4
    for (const float alpha : {0.02f, 0.1f, 0.5f, 1.0f})
        EXPECT_NEAR(over_facets(alpha, [&](const glm::vec3& h) { return ggx_density(h, alpha) * h.z; }), 1,
                    1e-3);
}

TEST(Ggx, VisibleAreaIsTheCosine) {  // Heitz 2014, eq. 10: fixes G1
    for (const float alpha : {0.1f, 0.5f, 1.0f})
        for (const double z : {0.1, 0.5, 0.95}) {
            const glm::vec3 out = direction(z, 0);
            const double g1 = 2 * z / ggx_masking_sum(out.z, alpha);
            const double seen = over_facets(alpha, [&](const glm::vec3& h) {
                return g1 * std::fmax(0.f, glm::dot(out, h)) * ggx_density(h, alpha);
            });
            EXPECT_NEAR(seen, z, 2e-3 * z) << alpha << ' ' << z;
        }
}

TEST(Ggx, SamplesFollowTheVisibleNormals) {
    for (const float alpha : {0.1f, 0.5f, 1.0f})
        for (const double z : {0.15, 0.6, 1.0}) {
            const glm::vec3 out = direction(z, 0.7);
            const double g1 = 2 * z / ggx_masking_sum(out.z, alpha);
            // First and second moments of the sampled normals against those of the density D G1 max(0, o.h) /
            // z.
            glm::dvec3 mean(0), square(0);
            constexpr int kCount = 512;
            for (int i = 0; i < kCount; ++i)
                for (int j = 0; j < kCount; ++j) {
                    const glm::dvec3 h =
                        ggx_visible_normal(out, alpha, {(i + 0.5f) / kCount, (j + 0.5f) / kCount});
                    mean += h / double(kCount * kCount);
                    square += h * h / double(kCount * kCount);
                }
            for (int axis = 0; axis < 3; ++axis) {
                const auto moment = [&](int power) {
                    return over_facets(alpha, [&](const glm::vec3& h) {
                        return std::pow(h[axis], power) * g1 * std::fmax(0.f, glm::dot(out, h)) *
                               ggx_density(h, alpha) / z;
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
