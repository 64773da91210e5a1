// Sectile: a piece a shape, drawn in by half a joint. Areas by closed form.
#include <gtest/gtest.h>

#include <numbers>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

constexpr double kJoint_mm = 0.6;

DrawnShape shape_of(std::vector<glm::dvec2> points, std::optional<std::uint32_t> material = {}) {
    DrawnShape shape;
    shape.outline.points_mm = std::move(points);
    shape.outline.closed = true;
    shape.material = material;
    return shape;
}

std::vector<glm::dvec2> circle(glm::dvec2 at, double radius_mm) {
    std::vector<glm::dvec2> points;
    for (int i = 0; i < 180; ++i) {
        const double turn = i * std::numbers::pi / 90;
        points.push_back(at + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return points;
}

Layout drawing(std::vector<DrawnShape> shapes) {
    Layout layout = sample_layout(Opus::sectile, 10, 10, kJoint_mm);
    layout.fields[0].shapes = std::move(shapes);
    return layout;
}

double shape_area_mm2(const Laying& laying, std::int32_t shape) {
    double sum = 0;
    for (const auto& p : laying.pieces)
        if (p.shape == shape) sum += area_mm2(p.outline_mm);
    return sum;
}

TEST(Sectile, PiecesAreTheShapesLessHalfAJoint) {
    const Laying laying = lay(
        drawing({shape_of({{100, 100}, {160, 100}, {160, 140}, {100, 140}}, kSlate),
                 shape_of(circle({300, 200}, 50), kSlag), shape_of({{400, 100}, {480, 100}, {400, 160}})}));
    // Rectangle: (a - j)(b - j). Regular polygon of n sides: the apothem loses j / 2. Triangle: the inradius
    // loses j / 2; 80, 60, 100 has inradius 20.
    EXPECT_NEAR(shape_area_mm2(laying, 0), (60 - kJoint_mm) * (40 - kJoint_mm), 1.0);
    const double apothem = 50 * std::cos(std::numbers::pi / 180) - kJoint_mm / 2;
    EXPECT_NEAR(shape_area_mm2(laying, 1), 180 * apothem * apothem * std::tan(std::numbers::pi / 180),
                std::numbers::pi * 100 * 0.02);
    EXPECT_NEAR(shape_area_mm2(laying, 2), 0.5 * 80 * 60 * std::pow(1 - kJoint_mm / 2 / 20, 2), 2.0);
    int of_shape[3] = {0, 0, 0};
    for (const auto& p : laying.pieces) {
        if (p.shape < 0) continue;
        ++of_shape[p.shape];
        constexpr std::uint32_t kMaterial[] = {1, 3, 0};  // slate, slag, and the mix: glass
        EXPECT_EQ(p.material, kMaterial[p.shape]);
    }
    for (const int count : of_shape) EXPECT_EQ(count, 1);
}

TEST(Sectile, GroundIsCutAndCoversTheRest) {
    // A ring-shaped shape with a core, on a ground with two islands in it.
    auto ring = shape_of(circle({200, 200}, 80));
    auto core = shape_of(circle({420, 220}, 60));
    const Laying laying = lay(drawing({ring, core}));
    EXPECT_LT(largest_overlap_mm2(laying.pieces), 1e-9);
    double area = 0, around = 0;
    for (const auto& p : laying.pieces) {
        EXPECT_TRUE(star_centre(p.outline_mm));
        area += area_mm2(p.outline_mm);
        for (std::size_t k = 0; k < p.outline_mm.size(); ++k)
            around += glm::distance(p.outline_mm[k], p.outline_mm[(k + 1) % p.outline_mm.size()]);
    }
    // Whatever the cuts: every piece loses half a joint along its own outline, and the outermost ones lie
    // flush with the panel's edge.
    const double flush = 2 * (600 + 400);
    EXPECT_NEAR(area, 600 * 400 - (around - flush) * kJoint_mm / 2, 0.001 * 600 * 400);
}

TEST(Sectile, JointsAreHairlines) {
    const Laying laying =
        lay(drawing({shape_of({{100, 100}, {300, 100}, {300, 250}}),
                     shape_of({{100, 100}, {300, 250}, {100, 250}}), shape_of(circle({450, 200}, 70))}));
    const auto joints = joints_mm(laying.pieces, 8, 1.5);
    ASSERT_GT(joints.size(), 12u);
    const auto [mean, sd] = mean_and_sd(joints);
    EXPECT_NEAR(mean, kJoint_mm, 0.05 * kJoint_mm);
    EXPECT_LT(sd, 0.25 * kJoint_mm);
}

TEST(Sectile, PartsOfAShapeAreOfOneMaterial) {
    Layout layout = drawing({});
    std::vector<glm::dvec2> crescent = circle({300, 200}, 150);
    crescent.resize(120);
    auto inner = circle({300, 200}, 110);
    inner.resize(120);
    crescent.insert(crescent.end(), inner.rbegin(), inner.rend());
    layout.fields[0].shapes = {shape_of(crescent)};
    layout.fields[0].mix = {{kGlass, 0.5}, {kSlate, 0.5}};
    const Laying laying = lay(layout);
    std::vector<std::uint32_t> materials;
    for (const auto& p : laying.pieces)
        if (p.shape == 0) materials.push_back(p.material);
    ASSERT_GT(materials.size(), 1u);
    EXPECT_EQ(std::count(materials.begin(), materials.end(), materials[0]),
              static_cast<std::ptrdiff_t>(materials.size()));
}

}  // namespace
}  // namespace rakelight
