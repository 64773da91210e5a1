// Two panels side by side: light by name is measured for both, and one left dark is told of.
#include <gtest/gtest.h>

#include "output/glare/measures/panel_light.h"
#include "scene/light/known_set_ups.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/hung_panel.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

const std::string kFields = "fields: [{name: all, piece: 60, mix: slate}]\n";
const std::string kLamp =
    "lamps: [{name: spot, at: [0, 2700, 900], aim: [0, 1450, 0], candela: 900, beam angle: 20}]\n";

Layout half_of_diptych(const test::Folder& folder, const std::string& beside, const std::string& rest) {
    folder.write("right.yaml", "panel: {size: [900, 600]}\n" + kFields + kLamp);
    return read_layout(folder.write("left.yaml", "panel: {size: [900, 600]}\n" + kFields +
                                                     "beside: {layout: right.yaml, gap: 60" + beside +
                                                     "}\nroom: {size: [7000, 6000, 3000]}\n" + rest));
}

std::pair<double, double> lux_of_both(const Layout& lit) {
    const auto hung = hung_panels(lit);
    return {direct_lux(lit, lit.panel, hung[0]), direct_lux(lit, hung[1].layout->panel, hung[1])};
}

}  // namespace

// Two panels that hang as one work are lit as one: what stands in the middle or has a lamp a panel gives both
// the same by symmetry; a raking lamp or a table lamp at one side falls off across the work (inverse square)
// but reaches both.
TEST(PanelLight, LightByNameLightsADiptychAsAWhole) {
    const test::Folder folder;
    const Layout layout = half_of_diptych(folder, "", "");
    for (const char* name : {"gallery spot", "pair at 45", "wash", "rake from top", "dusk", "own light"}) {
        const Layout lit = with_light(layout, name);
        Layout lamps_only = lit;  // the side window of dusk is on one side
        lamps_only.on.windows.clear();
        const auto [own, other] = lux_of_both(lamps_only);
        EXPECT_NEAR(own / other, 1, 0.03) << name;  // general light hangs over the first
        EXPECT_GT(own, 10) << name;
    }
    for (const char* name : {"rake from side", "evening lamp"}) {
        const auto [own, other] = lux_of_both(with_light(layout, name));
        EXPECT_GT(std::min(own, other), 0.1 * std::max(own, other)) << name;
    }
}

TEST(PanelLight, LampsOfTheOtherFileCanBeLit) {
    const test::Folder folder;
    const auto [own_dark, dark] = lux_of_both(half_of_diptych(folder, "", kLamp));
    EXPECT_LT(dark, 0.1 * own_dark);
    const Layout lit = half_of_diptych(folder, ", lamps: lit", kLamp);
    const auto [own, other] = lux_of_both(lit);
    EXPECT_NEAR(own / other, 1, 0.01);
    ASSERT_EQ(lit.on.lamps.size(), 2u);
    EXPECT_EQ(lit.on.lamps[1].name, "spot beside");
    EXPECT_EQ(lit.on.lamps[1].at_mm.x, 960);  // 450 + 60 + 450
}

TEST(PanelLight, APanelLeftDarkIsToldOf) {
    const test::Folder folder;
    const std::vector<std::string> said = panels_left_dark(half_of_diptych(folder, "", kLamp));
    ASSERT_EQ(said.size(), 1u);
    EXPECT_NE(said[0].find("left.yaml:3:9: beside: under own light the panel beside gets"), std::string::npos)
        << said[0];
    EXPECT_TRUE(panels_left_dark(half_of_diptych(folder, ", lamps: lit", kLamp)).empty());
    EXPECT_TRUE(panels_left_dark(half_of_diptych(folder, "", "light: gallery spot\n" + kLamp)).empty());
}

}  // namespace rakelight
