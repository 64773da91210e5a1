// The room on a sheet: every name is there, and none runs over another.
#include "output/glare/room_sketch.h"

#include <gtest/gtest.h>

#include "output/paper/type.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

// Seen from the side, a row of lamps and the windows of both side walls lie on one spot.
TEST(RoomSketch, NamesDoNotRunOverEachOther) {
    std::string lamps = "lamps:\n";
    for (int i = 0; i < 9; ++i)
        lamps += "  - {name: track lamp " + std::to_string(i + 1) + ", at: [" +
                 std::to_string(300 * (i - 4)) + ", 2700, 1500], aim: [0, 1450, 0], lumen: 300}\n";
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, piece: 60, mix: slate}]\n"
        "room: {size: [5000, 6000, 3000], windows: [\n"
        "  {name: west window, wall: left, at: [1500, 900], size: [1000, 1500]},\n"
        "  {name: east window, wall: right, at: [1500, 900], size: [1000, 1500]}]}\n"
        "viewpoints: [{name: standing, distance: 2000}, {name: the other guest, distance: 2000, sideways: "
        "300}]\n" +
            lamps,
        "t.yaml");
    for (const SketchView view : {SketchView::side, SketchView::above}) {
        Page page;
        Arrangement then{layout.panel.lean_deg, layout.panel.centre_height_mm, layout.on.lamps};
        add_room_sketch(page, view, layout, then, layout.views.viewpoints, {20, 20}, {100, 70});
        EXPECT_EQ(page.texts.size(), 13u);
        for (std::size_t i = 0; i < page.texts.size(); ++i)
            for (std::size_t j = 0; j < i; ++j) {
                const auto [a_low, a_high] = inked_mm(page.texts[i]);
                const auto [b_low, b_high] = inked_mm(page.texts[j]);
                const glm::dvec2 low = glm::max(a_low, b_low), high = glm::min(a_high, b_high);
                EXPECT_FALSE(low.x < high.x && low.y < high.y)
                    << page.texts[i].text << " over " << page.texts[j].text;
            }
    }
}

}  // namespace rakelight
