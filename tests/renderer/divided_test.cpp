// A divided work in a picture: the wall shows in the gap, panels to both sides, the same on any number of
// threads.
#include <gtest/gtest.h>

#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/layout_samples.h"

namespace rakelight {
namespace {

constexpr const char* kDiptych = R"(
panel:
  size: [400, 200]
  frame: {material: oak, width: 10, gap: 2}
  divided: {at: 200, gap: 40, panels: [west, east]}
fields: [{name: all, mix: slate, piece: 20, opus: tessellatum}]
viewpoints: [{name: straight, distance: 1500, view width: 440}]
pictures: [{name: front, viewpoint: straight, size: [88, 44], most samples: 8}]
)";

Film film(int threads) {
    const Layout layout = read_layout_text(kDiptych, "diptych.yaml");
    const World world = build_world(layout, lay(layout));
    const Bvh bvh{world};
    return render(world, bvh, layout, layout.views.pictures[0], {.threads = threads});
}

TEST(Divided, WallShowsInTheGap) {
    const Film f = film(2);
    // 5 mm a pixel: the picture's middle is the gap's, frames begin 20 mm from it, pieces 32 mm.
    const auto at = [&](int x) { return static_cast<std::size_t>(22 * f.width + x); };
    const double gap = f.features.depth_mm[at(44)], frame = f.features.depth_mm[at(39)],
                 left = f.features.depth_mm[at(30)], right = f.features.depth_mm[at(58)];
    const auto pieces_in = [&](int from, int to) {  // columns, of the middle row
        int count = 0;
        for (int x = from; x < to; ++x) count += f.features.piece[at(x)] > 0;
        return count;
    };
    EXPECT_GE(pieces_in(20, 36), 8);  // others may be joints
    EXPECT_EQ(pieces_in(38, 50), 0);
    EXPECT_GE(pieces_in(52, 68), 8);
    // Wall, 12 mm of air and 12 mm of board behind the substrate's front.
    EXPECT_GT(gap, left + 24);
    EXPECT_GT(gap, right + 24);
    EXPECT_GT(gap, frame + 24);
}

TEST(Divided, SameOnOneAndThreeThreads) {
    const Film one = film(1), three = film(3);
    for (std::size_t p = 0; p < one.pixel_count(); ++p) {
        for (std::size_t g = 0; g < one.groups.size(); ++g) ASSERT_EQ(one.xyz[g][p], three.xyz[g][p]) << p;
        ASSERT_EQ(one.features.piece[p], three.features.piece[p]) << p;
    }
}

}  // namespace
}  // namespace rakelight
