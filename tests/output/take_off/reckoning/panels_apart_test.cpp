// Panels of a divided work weigh together what the work does, and each hangs by itself.
#include "output/take_off/reckoning/panels_apart.h"

#include <gtest/gtest.h>

#include "scene/room/panel_frame.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

Layout in_two(Layout layout, double at, double gap) {
    layout.panel.divided = Division{{at}, gap, {"left", "right"}, {}};
    return layout;
}

std::vector<PanelApart> apart(const LaidSample& s, const HangingWishes& wishes = {}) {
    return panels_apart(s.layout, s.laying, s.volumes, s.regions, wishes);
}

double part_kg(const Weighing& w, const std::string& name) {
    for (const WeightPart& part : w.parts)
        if (part.name == name) return part.kg;
    return 0;
}

TEST(PanelsApart, AddUpToTheWork) {
    Layout layout = two_grouts();
    layout.stones = {slag_stone()};
    layout.panel.frame = Frame{.material = kSlate, .width_mm = 6, .proud_mm = 4, .gap_mm = 1};
    const LaidSample s = laid_sample(in_two(layout, 120, 10));
    const Weighing whole = weigh(s.layout, s.laying, s.volumes, {});
    const auto panels = apart(s);
    ASSERT_EQ(panels.size(), 2u);
    EXPECT_EQ(panels[0].pieces + panels[1].pieces, s.laying.pieces.size());
    EXPECT_EQ(panels[0].stones, 1u);  // at x = 60
    EXPECT_EQ(panels[1].stones, 0u);
    EXPECT_NEAR(panels[0].weighing.likely_kg + panels[1].weighing.likely_kg, whole.likely_kg,
                1e-6 * whole.likely_kg);
    for (const WeightPart& part : whole.parts)
        EXPECT_NEAR(part_kg(panels[0].weighing, part.name) + part_kg(panels[1].weighing, part.name), part.kg,
                    1e-6 * part.kg)
            << part.name;
    EXPECT_NEAR(whole.face_m2, (200 - 24) * 120e-6, 1e-12);  // gap 10, two frames of 7
}

// Board of 12 mm: 95 x 120 x 12 mm3, by its density; each frame goes round its own board.
TEST(PanelsApart, EachHasItsOwnBoard) {
    const LaidSample s = laid_sample(in_two(level_grid(10, 2, 200, 120), 100, 10));
    const auto panels = apart(s);
    ASSERT_EQ(panels.size(), 2u);
    const double density = static_cast<double>(s.layout.stock[0].density_g_per_cm3);
    for (const PanelApart& panel : panels)
        EXPECT_NEAR(part_kg(panel.weighing, "board"), 95 * 120 * 12 * density * 1e-6, 1e-9);
    EXPECT_EQ(panels[0].span.name, "left");
    EXPECT_NEAR(panels[0].load.cleat_mm, 0.8 * 95, 1e-9);  // four fifths of its own width
}

TEST(PanelsApart, OneOfAnUndividedPanel) {
    const LaidSample s = laid_sample(level_grid(10, 2, 200, 120));
    const auto panels = apart(s);
    ASSERT_EQ(panels.size(), 1u);
    EXPECT_DOUBLE_EQ(panels[0].weighing.likely_kg, weigh(s.layout, s.laying, s.volumes, {}).likely_kg);
    EXPECT_EQ(panels[0].pieces, s.laying.pieces.size());
}

TEST(PanelsApart, HeaviestIsTheWiderOfTwoAlike) {
    const LaidSample s = laid_sample(in_two(level_grid(10, 2, 200, 120), 70, 10));
    EXPECT_EQ(heaviest(apart(s)).span.name, "right");
}

}  // namespace
}  // namespace rakelight
