// Everything that a print of the portfolio shows counts, and words about it do not.
#include "output/portfolio/print_hash.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <functional>
#include <iterator>
#include <set>

namespace rakelight {
namespace {

struct Shown {
    PlannedShot plan;
    Portfolio portfolio;
    std::uint64_t hash() const { return print_hash(7, "1", plan, portfolio); }
};

Shown in_a_room() {
    Shown print;
    print.plan.title = "In its place";
    print.plan.light = "dusk";
    print.plan.in_room = true;
    print.plan.layout.views.viewpoints.resize(1);
    print.portfolio.scale_figures.resize(1);
    return print;
}

// Every member by its name, so that a new one breaks these lines until it is asked for below.
TEST(PrintHash, AllThatIsShownCounts) {
    [[maybe_unused]] const auto& [name, walk, eye, look_at, view_width, focal_length, perspective, place] =
        Viewpoint();
    [[maybe_unused]] const auto& [aperture, focus] = Lens();
    [[maybe_unused]] const auto& [what, at, turn, height] = StandInPlace();
    const auto view = [](Shown& p) -> Viewpoint& { return p.plan.layout.views.viewpoints[0]; };
    const auto thing = [](Shown& p) -> StandInPlace& { return p.portfolio.scale_figures[0]; };
    const std::function<void(Shown&)> changes[] = {
        [&](Shown& p) { view(p).eye_mm.x = 1; },
        [&](Shown& p) { view(p).eye_mm.z = 1; },
        [&](Shown& p) { view(p).look_at_mm.y = 1; },
        [&](Shown& p) { view(p).view_width_mm = 1; },
        [&](Shown& p) { view(p).perspective = static_cast<Perspective>(1); },
        [&](Shown& p) { p.plan.lens.aperture_mm = 1; },
        [&](Shown& p) { p.plan.lens.focus_mm = 1; },
        [&](Shown& p) { p.portfolio.dpi += 1; },
        [&](Shown& p) { p.plan.title += "s"; },
        [&](Shown& p) { p.plan.light = "noon"; },
        [&](Shown& p) { p.plan.picture.error /= 2; },
        [&](Shown& p) { p.plan.in_room = false; },
        [&](Shown& p) { thing(p).what = StandIn::bench; },
        [&](Shown& p) { thing(p).at_mm.x = 1; },
        [&](Shown& p) { thing(p).at_mm.y = 1; },
        [&](Shown& p) { thing(p).turn_deg = 1; },
        [&](Shown& p) { thing(p).height_mm = 1; },
        [&](Shown& p) { p.portfolio.scale_figures.emplace_back(); }};
    std::set<std::uint64_t> hashes{in_a_room().hash()};
    for (const auto& change : changes) {
        Shown print = in_a_room();
        change(print);
        hashes.insert(print.hash());
    }
    EXPECT_EQ(hashes.size(), 1 + std::size(changes));
}

TEST(PrintHash, WordsAboutItDoNot) {
    Shown print = in_a_room();
    print.plan.note = "by the last light";
    print.plan.layout.views.viewpoints[0].place.line = 3;
    EXPECT_EQ(print.hash(), in_a_room().hash());
}

// Where the title ends and the name of the light begins is part of both.
TEST(PrintHash, TitleAndLightAreNotRunTogether) {
    Shown one = in_a_room(), other = in_a_room();
    one.plan.title = "Seen by day";
    one.plan.light = "from the north";
    other.plan.title = "Seen by day from";
    other.plan.light = "the north";
    EXPECT_NE(one.hash(), other.hash());
}

}  // namespace
}  // namespace rakelight
