#include "scene/forms/stone_body.h"

#include <gtest/gtest.h>

#include <ostream>
#include <string>

#include "scene/forms/forms.h"
#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"
#include "tests/support/mesh_checks.h"

namespace rakelight {
namespace {

struct Stuff {
    std::string material, form;
};

void PrintTo(const Stuff& s, std::ostream* out) {
    *out << s.material << '_' << s.form;
}

class EveryStone : public ::testing::TestWithParam<Stuff> {
  protected:
    void SetUp() override {
        set.stone.at_mm = {200, 150};
        set.stone.size_mm = {50, 36, 28};
        set.stone.form = GetParam().form;
        set.stone.seed = 11;
        set.top_mm = 30;
    }
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    const Material& material = stuff_called(layout, GetParam().material);
    SetStone set;
};

TEST_P(EveryStone, ClosedFineAndOfItsSize) {
    const Mesh mesh = form_stone(set, material);
    EXPECT_GE(mesh.triangles.size(), 20000u);
    expect_closed(mesh);
    expect_good_normals(mesh);
    Box plan;
    float low = 1e9f, high = -1e9f;
    for (const auto& p : mesh.positions_mm) {
        plan.add(glm::dvec2(p));
        low = std::min(low, p.z);
        high = std::max(high, p.z);
    }
    EXPECT_NEAR(plan.size().x, 50, 1e-3);
    EXPECT_NEAR(plan.size().y, 36, 1e-3);
    EXPECT_NEAR(high - low, 28, 1e-3);
    EXPECT_NEAR(high, 30, 1e-3);
    // Between an octahedron (1/6 of its box) and the box.
    EXPECT_GT(volume_mm3(mesh), 50.0 * 36 * 28 / 6);
    EXPECT_LT(volume_mm3(mesh), 50.0 * 36 * 28);
}

TEST_P(EveryStone, FootprintHoldsWhatStandsAboveTheFaces) {
    const double plane = 16;
    const auto footprint = stone_footprint(set, material, plane);
    const Region kept = grow(region_of(footprint), 1.0);
    for (const auto& p : form_stone(set, material).positions_mm)
        if (static_cast<double>(p.z) > plane) {
            EXPECT_TRUE(contains(kept, glm::dvec2(p)));
        }
}

TEST_P(EveryStone, SeedMakesTheStoneAndPlaceDoesNot) {
    const Mesh here = stone_body(set, material, 2);
    SetStone moved = set;
    moved.stone.at_mm.x += 64;
    const Mesh there = stone_body(moved, material, 2);
    SetStone other = set;
    other.stone.seed = 12;
    const Mesh another = stone_body(other, material, 2);
    double shift = 0, change = 0;
    for (std::size_t i = 0; i < here.positions_mm.size(); ++i) {
        shift = std::max<double>(
            shift, glm::distance(here.positions_mm[i] + glm::vec3(64, 0, 0), there.positions_mm[i]));
        change = std::max<double>(change, glm::distance(here.positions_mm[i], another.positions_mm[i]));
    }
    EXPECT_LT(shift, 1e-3);
    EXPECT_GT(change, 0.3);
}

INSTANTIATE_TEST_SUITE_P(Forms, EveryStone,
                         ::testing::Values(Stuff{"slate", "chunk"}, Stuff{"pumice", "chunk"},
                                           Stuff{"slag", "chunk"}, Stuff{"slate", "pebble"}),
                         [](const auto& test) { return test.param.material + '_' + test.param.form; });

}  // namespace
}  // namespace rakelight
