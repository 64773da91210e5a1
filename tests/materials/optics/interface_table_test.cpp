#include "materials/optics/interface_table.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <stdexcept>

#include "materials/optics/fresnel.h"
#include "materials/optics/ggx.h"

namespace rakelight {
namespace {

// Albedo by the plain definition: the BRDF times cosine summed over facet normals (each sends one direction),
// on a slope grid that shares nothing with the table's quadrature.
double albedo_by_slopes(double z_out, double index, double alpha) {
    constexpr int kSlopes = 4000, kTurns = 512;
    const double x_out = std::sqrt(1 - z_out * z_out), a2 = alpha * alpha;
    double total = 0;
    for (int i = 0; i < kSlopes; ++i) {
        const double u = (i + 0.5) / kSlopes, t = alpha * u / (1 - u), z = 1 / std::sqrt(1 + t * t);
        const double ring = alpha / ((1 - u) * (1 - u)) * t * z * z * z;
        const double density = 1 / (3.14159265358979 * a2 * z * z * z * z * std::pow(1 + t * t / a2, 2));
        for (int k = 0; k < kTurns; ++k) {
            const double toward = x_out * t * z * std::cos(3.14159265358979 * (k + 0.5) / kTurns) + z_out * z;
            const double z_in = 2 * toward * z - z_out;
            if (toward <= 0 || z_in <= 0) continue;
            const double masking = 2 * z_out * z_in /
                                   (z_out * std::sqrt(a2 + (1 - a2) * z_in * z_in) +
                                    z_in * std::sqrt(a2 + (1 - a2) * z_out * z_out));
            // F D G2 / (4 zo zi) * zi, and the solid angle of `in` is 4 towards times that of the normal.
            total += ring * dielectric_reflectance(toward, index) * density * masking * toward / z_out;
        }
    }
    return total * 2 * 3.14159265358979 / (double(kSlopes) * kTurns);
}

TEST(InterfaceTable, AgreesWithThePlainSum) {
    double worst = 0;
    for (const float index : {1.1f, 1.5f, 1.7f})
        for (const float alpha : {0.02f, 0.1f, 0.4f, 1.0f}) {
            const InterfaceTable table = make_interface_table(index, alpha);
            for (const double z : {0.03, 0.1, 0.3, 0.7, 0.99}) {
                const double plain = albedo_by_slopes(z, index, alpha);
                worst = std::max(worst, std::fabs(table.albedo(static_cast<float>(z)) - plain));
                EXPECT_NEAR(table.albedo(static_cast<float>(z)), plain, 2e-4)
                    << index << ' ' << alpha << ' ' << z;
            }
        }
    std::printf("worst difference of a face's albedo from the plain sum: %.1e\n", worst);
}

// Of facets drawn out, by the plain sum over slopes; 0.002 is what a furnace may be off.
TEST(InterfaceTable, DrawnOutAgreesFromEverySide) {
    double worst = 0;
    for (const float alpha : {0.1f, 0.3f, 0.6f})
        for (const float stretch : {2.0f, 6.0f, 16.0f}) {
            const InterfaceTable table = make_interface_table(1.5f, alpha, stretch);
            const Slopes s = table.slopes;
            for (const double z : {0.1, 0.3, 0.6, 0.9})
                for (const double phi : {0.0, 0.4, 0.9, 1.5707}) {
                    const double flat = std::sqrt(1 - z * z);
                    const glm::vec3 out(flat * std::cos(phi), flat * std::sin(phi), z);
                    // The plain sum over slopes, as above.
                    double plain = 0;
                    constexpr int kSlopes = 1000, kTurns = 512;
                    for (int i = 0; i < kSlopes; ++i)
                        for (int k = 0; k < kTurns; ++k) {
                            const double u = (i + 0.5) / kSlopes, t = u / (1 - u),
                                         turn = 2 * 3.14159265358979 * (k + 0.5) / kTurns;
                            const glm::dvec3 way(s.alpha * s.along * t * std::cos(turn),
                                                 s.alpha * s.across * t * std::sin(turn), 1);
                            const double up = 1 / glm::length(way);
                            const glm::vec3 half(way * up);
                            const float toward = glm::dot(out, half);
                            const glm::vec3 in = 2 * toward * half - out;
                            if (toward <= 0 || in.z <= 0) continue;
                            const double ring = s.alpha * s.alpha * t / ((1 - u) * (1 - u)) * up * up * up;
                            plain += ring * dielectric_reflectance(toward, 1.5f) * ggx_density(half, s) * 4 *
                                     toward * in.z *
                                     ggx_visibility(out.z, ggx_reach(out, s), in.z, ggx_reach(in, s));
                        }
                    plain *= 2 * 3.14159265358979 / (double(kSlopes) * kTurns);
                    worst = std::max(worst, std::fabs(table.albedo(out) - plain));
                    EXPECT_NEAR(table.albedo(out), plain, 2e-3)
                        << alpha << ' ' << stretch << ' ' << z << ' ' << phi;
                }
        }
    std::printf("worst difference of a drawn-out face's albedo from the plain sum: %.1e\n", worst);
}

TEST(InterfaceTable, MirrorIsFresnel) {
    const InterfaceTable table = make_interface_table(1.52f, 0);
    for (float z = 0; z <= 1; z += 0.001f)
        EXPECT_NEAR(table.albedo(z), dielectric_reflectance(z, 1.52f), 1.5e-4);
    EXPECT_NEAR(table.mean_albedo, diffuse_reflectance_outside(1.52), 5e-5);
}

TEST(InterfaceTable, RoughTendsToMirror) {
    const InterfaceTable mirror = make_interface_table(1.5f, 0), nearly = make_interface_table(1.5f, 0.004f);
    EXPECT_EQ(make_interface_table(1.5f, 0.001f).slopes.alpha, 0);
    for (const float z : {0.2f, 0.5f, 1.0f}) EXPECT_NEAR(nearly.albedo(z), mirror.albedo(z), 1e-3);
}

TEST(InterfaceTable, RefusesNonsense) {
    EXPECT_THROW(make_interface_table(1, 0), std::invalid_argument);
    EXPECT_THROW(make_interface_table(0.8f, 0), std::invalid_argument);
    EXPECT_THROW(make_interface_table(1.5f, -0.1f), std::invalid_argument);
    EXPECT_THROW(make_interface_table(NAN, 0), std::invalid_argument);
    EXPECT_THROW(make_interface_table(1.5f, 0.1f, 0.5f), std::invalid_argument);
    EXPECT_THROW(make_interface_table(1.5f, 0.1f, NAN), std::invalid_argument);
}

TEST(InterfaceTables, MakesEachOnce) {
    InterfaceTables tables;
    const InterfaceTable* a = &tables.get(1.5f, 0);
    tables.get(1.6f, 0);
    EXPECT_EQ(a, &tables.get(1.5f, 0));
}

}  // namespace
}  // namespace rakelight
