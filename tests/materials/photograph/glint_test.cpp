// The judge is a lamp seen in facets one by one: normals drawn from the distribution, the line of sight
// mirrored in each, and a hit of the lamp's disc counted.
#include "materials/photograph/glint.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <glm/glm.hpp>
#include <numbers>
#include <random>
#include <stdexcept>
#include <vector>

namespace rakelight {
namespace {

// Width at half of the middle's luminance.
double counted_width_mm(const Glint& g, double alpha) {
    std::mt19937 engine(11);
    const auto uniform = [&] { return (engine() + 0.5) * (1.0 / 4294967296.0); };
    constexpr int kPlaces = 60, kFacets = 400000;
    const double step = 0.05 * mirrored_width_mm(g) + 2 * alpha * g.camera_distance_mm / kPlaces;
    std::vector<double> seen(kPlaces);
    for (int f = 0; f < kFacets; ++f) {
        const double u = uniform(), tan2 = alpha * alpha * u / (1 - u),
                     phi = 2 * std::numbers::pi * uniform();
        const double z = 1 / std::sqrt(1 + tan2), flat = std::sqrt(1 - z * z);
        const glm::dvec3 facet(flat * std::cos(phi), flat * std::sin(phi), z);
        for (int i = 0; i < kPlaces; ++i) {
            const glm::dvec3 at(0, i * step, 0);
            const glm::dvec3 out = glm::normalize(glm::dvec3(0, 0, g.camera_distance_mm) - at);
            const double facing = glm::dot(out, facet);
            const glm::dvec3 in = 2 * facing * facet - out;
            if (!(facing > 0 && in.z > 0)) continue;
            const glm::dvec3 hit = at + in * (g.lamp_distance_mm / in.z);
            if (std::hypot(hit.x, hit.y) < g.lamp_mm / 2)
                seen[static_cast<std::size_t>(i)] += facing / (out.z * facet.z);
        }
    }
    const double middle = (seen[0] + seen[1]) / 2;
    for (std::size_t i = 1; i < seen.size(); ++i)
        if (seen[i] < middle / 2)
            return 2 * step * (static_cast<double>(i) - (middle / 2 - seen[i]) / (seen[i - 1] - seen[i]));
    return INFINITY;
}

TEST(Glint, TellsTheRoughnessOfFacetsCountedOneByOne) {
    double worst = 0;
    for (const double alpha : {0.03, 0.08, 0.2, 0.35})
        for (Glint g : {Glint{0, 60, 1500, 600}, Glint{0, 120, 1000, 1000}}) {
            g.width_mm = counted_width_mm(g, alpha);
            const double found = roughness_of(g);
            worst = std::max(worst, std::abs(found / alpha - 1));
            EXPECT_NEAR(found, alpha, 0.1 * alpha + 0.003) << g.lamp_mm << ' ' << g.width_mm;
        }
    std::printf("roughness from the width of a glint: off by %.1f %% at worst\n", 100 * worst);
}

// Small lamp, far away, near the normal: half of D lies at tan = alpha sqrt(sqrt 2 - 1), and the half vector
// leans by half of what the place moves off (closed form).
TEST(Glint, OfAPointIsTheLobeItself) {
    const Glint g{0, 1, 100000, 2000};
    const double alpha = 0.05, lean = alpha * std::sqrt(std::sqrt(2.0) - 1);
    EXPECT_NEAR(glint_width_mm(g, alpha), 2 * 2 * lean / (1 / 1e5 + 1 / 2e3), 0.01 * 4 * lean * 2000);
}

TEST(Glint, AMirrorShowsTheLampsImage) {
    EXPECT_DOUBLE_EQ(mirrored_width_mm({0, 60, 1200, 800}), 24);  // similar triangles: 60 * 800 / 2000
    EXPECT_EQ(roughness_of({24.3, 60, 1200, 800}), 0);
    EXPECT_THROW(roughness_of({15, 60, 1200, 800}), std::invalid_argument);
    EXPECT_THROW(roughness_of({1e6, 60, 1200, 800}), std::invalid_argument);
    EXPECT_THROW(roughness_of({24, 60, 0, 800}), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
