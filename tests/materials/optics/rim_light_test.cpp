// Rims, bevels and chips of translucent pieces: faces that lean away from the piece's own.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/optics/surface.h"
#include "materials/optics/surface_lanes.h"

namespace rakelight {
namespace {

constexpr double kThick_mm = 4, kAcross_mm = 10;

Material glass(float index, float absorption_per_mm) {
    Material m;
    m.name = "glass";
    m.kind = Kind::glass;
    m.opaque = false;
    m.index = index;
    for (int b = 0; b < kBandCount; ++b)
        m.absorption_per_mm[b] = absorption_per_mm * static_cast<float>(b) / (kBandCount - 1);
    return m;
}

Surface piece(const Material& m, float bed, float filling, InterfaceTables& faces) {
    return make_surface(m, kThick_mm, SampledSpectrum(bed), 1, faces,
                        {SampledSpectrum(filling), kAcross_mm, 3});
}

// Upright on the piece's face, seen from a rim that leans by so many degrees.
glm::vec3 leaning(double lean_deg) {
    const double lean = glm::radians(lean_deg);
    return {-std::sin(lean), 0, std::cos(lean)};
}

SampledSpectrum base(const Surface& s, const glm::vec3& out, const glm::vec3& in, float edge_mm,
                     const glm::vec3& face) {
    LaneArray<const Surface*> lanes;
    lanes.fill(&s);
    const SurfaceLanes at(lanes, broadcast3(out), broadcast(1), broadcast(1), broadcast(edge_mm),
                          broadcast3(face));
    return at.base(0, at.evaluate(broadcast3(in)).base);
}

TEST(RimLight, NothingIsLostOrMadeInWhite) {
    InterfaceTables faces;
    const Surface s = piece(glass(1.52f, 0), 1, 1, faces);
    const glm::vec3 out = glm::normalize(glm::vec3(0.4f, 0.2f, 1)), in(0, 0, 1);
    const SampledSpectrum flat = base(s, out, in, 1, {0, 0, 1});
    for (const double lean_deg : {20, 45, 90})
        for (int b = 0; b < kBandCount; ++b)
            EXPECT_NEAR(base(s, out, in, 1, leaning(lean_deg))[b], flat[b], 4e-3f * flat[b]) << lean_deg;
}

// A piece without filling at its sides looks the same all over.
TEST(RimLight, WithoutFillingAPlaceChangesNothing) {
    InterfaceTables faces;
    const Surface s = make_surface(glass(1.52f, 0.3f), kThick_mm, SampledSpectrum(0.7f), 1, faces);
    const glm::vec3 out = glm::normalize(glm::vec3(0.4f, 0.2f, 1)), in(0, 0, 1);
    const SampledSpectrum anywhere = base(s, out, in, -1, {0, 0, 1}),
                          here = base(s, out, in, 0.3f, {0, 0, 1});
    EXPECT_GT(anywhere[0], 0.1f);
    for (int b = 0; b < kBandCount; ++b) EXPECT_FLOAT_EQ(here[b], anywhere[b]);
}

// Helmholtz: the way back is the way there, but for the cosine of `in`.
TEST(RimLight, IsReciprocal) {
    InterfaceTables faces;
    const Surface s = piece(glass(1.52f, 0.3f), 0.7f, 0.1f, faces);
    const glm::vec3 a = glm::normalize(glm::vec3(0.6f, 0.2f, 0.5f)),
                    b = glm::normalize(glm::vec3(-0.5f, 0.4f, 1));
    for (const double lean_deg : {12, 45, 80}) {
        const SampledSpectrum there = base(s, a, b, 0.4f, leaning(lean_deg)),
                              back = base(s, b, a, 0.4f, leaning(lean_deg));
        for (int band = 0; band < kBandCount; ++band)
            EXPECT_NEAR(there[band] / b.z, back[band] / a.z, 1e-5f) << lean_deg;
    }
}

// A side seen straight on: light goes level across the piece, pi A / P far in the mean (Santalo: the mean
// chord), to dark filling and back by Beer's law. What a dark filling sends to and fro is 3 % of it.
TEST(RimLight, ASideShowsTheColourOfThickerGlass) {
    InterfaceTables faces;
    const Material m = glass(1.52f, 0.2f);
    const Surface s = piece(m, 0.05f, 0.05f, faces);
    const double chord_mm = std::numbers::pi / 4 * kAcross_mm;
    const SampledSpectrum aside = base(s, {0, 0, 1}, {0, 0, 1}, 0, leaning(90));
    const SampledSpectrum above = base(s, {0, 0, 1}, {0, 0, 1}, 50, {0, 0, 1});
    for (int b = 1; b < kBandCount; ++b) {
        const double absorption = static_cast<double>(m.absorption_per_mm[b]);
        EXPECT_NEAR(static_cast<double>(s.flat[b] / s.flat[0]), std::exp(-absorption * chord_mm), 0.02);
        // Deeper than the face by the longer way, there and back.
        EXPECT_NEAR(static_cast<double>(aside[b] / aside[0] / (above[b] / above[0])),
                    std::exp(-2 * absorption * (chord_mm - kThick_mm)), 0.05)
            << b;
    }
}

// A bevel of 45 degrees seen from over the face: by Snell's law the ray leans inwards by 45 - asin(sin 45 /
// n) degrees, and meets the bed so much farther in.
TEST(RimLight, ABevelSeesTheBedFartherIn) {
    InterfaceTables faces;
    const Surface s = piece(glass(1.52f, 0.2f), 0.8f, 0.05f, faces);
    const glm::vec3 face = leaning(45);
    const double lean = std::numbers::pi / 4 - std::asin(std::sin(std::numbers::pi / 4) / 1.52);
    const auto farther = static_cast<float>(kThick_mm * std::tan(lean));
    const SampledSpectrum near = base(s, face, face, 0.1f, face), far = base(s, face, face, 2, face);
    for (const int b : {0, 7, 15})
        EXPECT_NEAR(near[b] / far[b], s.side_at(0.1f + farther)[b] / s.side_at(2 + farther)[b], 0.01f);
}

// Where dark filling reaches up to the face, the bevel is lighter than the edge of the face beside it.
TEST(RimLight, ABevelPassesLightThatTheEdgeOfTheFaceDoesNot) {
    InterfaceTables faces;
    const Surface s = make_surface(glass(1.52f, 0.05f), kThick_mm, SampledSpectrum(0.8f), 1, faces,
                                   {SampledSpectrum(0.05f), 20, kThick_mm});
    const glm::vec3 level(0, 0, 1), face = leaning(45);
    const auto fall = [&](const glm::vec3& f) { return base(s, f, f, 0.1f, f)[7] / base(s, f, f, 6, f)[7]; };
    EXPECT_GT(fall(face), 1.1f * fall(level));
}

}  // namespace
}  // namespace rakelight
