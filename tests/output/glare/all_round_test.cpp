// Glare under light from all round.
#include <gtest/gtest.h>

#include "output/glare/look.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/surround_samples.h"

namespace rakelight {

// Even light but for a lamp 2.5 degrees in radius, 11.3 degrees up and 7.6 to the left of who faces the
// panel: where an eye 300 mm below and 200 mm to the right of the panel's middle, 1500 mm in front of it,
// sees it mirrored in the middle (law of reflection, by hand).
TEST(GlareAllRound, ALampInThePictureIsNamedByItsDirection) {
    Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\n"
        "fields: [{name: all, piece: 40, mix: jet, setting: levelled}]\n"
        "viewpoints: [{name: seat, eye: [200, 1150, 1500], look at: [0, 1450, 0], view width: 900}]\n",
        "t.yaml");
    const glm::vec3 to_lamp = glm::normalize(glm::vec3(-200, 300, 1500));
    const Layout lit = lit_all_round(surround_of(256, [&](const glm::vec3& d) {
        return glm::vec3(glm::dot(d, to_lamp) > 0.99905f ? 20'000.0f : 12.0f);
    }));
    layout.on = lit.on;
    const Laying laying = lay(layout);
    const GlareRoom room(layout, laying);
    EXPECT_EQ(room.world.groups,
              (std::vector<std::string>{"light all round: 8 degrees left, 11 up", "light all round"}));
    GlareAsk ask;
    ask.width_px = 200;
    ask.most_samples = 16;
    ask.quiet = true;
    const GlareLook look = look_for_glare(room, metered_light(room, ask), layout.views.viewpoints[0], ask);
    EXPECT_NE(
        look.report.verdict.find("light all round: 8 degrees left, 11 up is reflected in the field all"),
        std::string::npos)
        << look.report.verdict;
    ASSERT_TRUE(look.report.largest);
    // A piece that is tilted by 2 degrees, a threshold of our own for levelled ones, has it 110 mm away, and
    // the lamp is 2.5 degrees in radius.
    EXPECT_LT(glm::distance(look.report.largest->at_mm, glm::dvec2(300, 225)), 150);
    // The lamp stands behind the viewer: nothing of it is in view, and even light is background.
    EXPECT_TRUE(look.report.sources.empty());
}

}  // namespace rakelight
