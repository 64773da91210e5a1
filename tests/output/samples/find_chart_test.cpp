// The chart found by itself in synthetic photographs: tilted to 40 degrees, turned, blurred, dim, among
// clutter; and never where there is none. Without the component the test is skipped.
#include "output/samples/find_chart.h"

#include <gtest/gtest.h>

#include "tests/support/simulated_picture.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using namespace test;

/// A chart of 1 by 2/3, tilted about an axis in its plane and turned, before a lens three widths away.
ChartCorners seen_corners(double tilt_deg, double axis_deg, double turn_deg, const glm::dvec2& middle,
                          double width) {
    const auto rad = [](double deg) { return deg * std::numbers::pi / 180; };
    ChartCorners corners;
    const std::array<glm::dvec2, 4> flat{{{-0.5, -0.33}, {0.5, -0.33}, {0.5, 0.33}, {-0.5, 0.33}}};
    for (std::size_t i = 0; i < 4; ++i) {
        const double t = rad(turn_deg), a = rad(axis_deg);
        const glm::dvec2 p(flat[i].x * std::cos(t) - flat[i].y * std::sin(t),
                           flat[i].x * std::sin(t) + flat[i].y * std::cos(t));
        const double along = p.x * std::cos(a) + p.y * std::sin(a),
                     across = p.y * std::cos(a) - p.x * std::sin(a);
        const double deep = across * std::sin(rad(tilt_deg)), flatter = across * std::cos(rad(tilt_deg));
        const glm::dvec2 q(along * std::cos(a) - flatter * std::sin(a),
                           along * std::sin(a) + flatter * std::cos(a));
        corners[i] = middle + width * q * (3 / (3 + deep));
    }
    return corners;
}

void add_clutter(SimulatedPicture& picture, Rng& rng, int count) {
    for (int i = 0; i < count; ++i) {
        const double x = rng.within(0, 1150), y = rng.within(0, 750), w = rng.within(15, 160),
                     h = rng.within(15, 120);
        picture.things.push_back({rectangle(x, y, w, h), {rng.unit(), rng.unit(), rng.unit()}});
    }
}

bool has_finder() {
    return std::filesystem::exists(std::filesystem::read_symlink("/proc/self/exe").parent_path() /
                                   "../output/find-chart");
}

TEST(FindChart, InFiftyPhotographs) {
    if (!has_finder()) GTEST_SKIP() << "libopencv-contrib-dev was not there";
    const Folder folder;
    Rng rng(24);
    int found = 0;
    for (int i = 0; i < 50; ++i) {
        SimulatedPicture picture;
        picture.size = {1200, 800};
        picture.exposure = i % 5 == 0 ? 0.12 : rng.within(0.5, 0.9);
        picture.fall = rng.within(0, 0.3);
        picture.blur_px = i % 3;
        add_clutter(picture, rng, 25);
        const double turn = i % 4 == 3 ? rng.within(0, 360) : rng.within(-20, 20);
        const ChartCorners truth =
            seen_corners(rng.within(0, 40), rng.within(0, 360), turn,
                         {rng.within(480, 720), rng.within(350, 450)}, rng.within(420, 640));
        picture.add_chart(truth);
        picture.write(folder / "p.png");
        const FoundChart chart = find_chart(Photograph(folder / "p.png"), Tone::by_format);
        if (!chart.corners) {
            std::printf("%d: %s (turn %.0f blur %d exposure %.2f)\n", i, chart.why_not.c_str(), turn,
                        picture.blur_px, picture.exposure);
            continue;
        }
        ++found;
        double off = 0;
        for (std::size_t k = 0; k < 4; ++k) off = std::max(off, glm::distance(truth[k], (*chart.corners)[k]));
        EXPECT_LT(off, 0.03 * glm::distance(truth[0], truth[1])) << i;  // a fifth of a patch
    }
    EXPECT_GE(found, 48);
}

// Nothing like a chart, and boards like one: shades of one colour, chance colours, a chart cut off by the
// edge.
TEST(FindChart, NotWhereThereIsNone) {
    if (!has_finder()) GTEST_SKIP() << "libopencv-contrib-dev was not there";
    const Folder folder;
    Rng rng(25);
    for (int i = 0; i < 12; ++i) {
        SimulatedPicture picture;
        picture.size = {1200, 800};
        add_clutter(picture, rng, 40);
        const ChartCorners place = seen_corners(10, 30.0 * i, 0, {600, 400}, 560);
        picture.add_chart(i % 3 == 2 ? seen_corners(5, 0, 0, {80, 400}, 560) : place);
        if (i % 3 != 2)
            for (std::size_t k = picture.things.size() - kChartPatches; k < picture.things.size(); ++k)
                for (double& v : picture.things[k].rgb)
                    v = i % 3 == 0 ? rng.within(0.03, 0.9) : v * 0.1 + 0.02 * (k % 7);
        picture.write(folder / "p.png");
        const FoundChart chart = find_chart(Photograph(folder / "p.png"), Tone::by_format);
        EXPECT_FALSE(chart.corners) << i;
        EXPECT_NE(chart.why_not.find("expected chart: {corners: "), std::string::npos) << i << chart.why_not;
    }
}

}  // namespace
}  // namespace rakelight
