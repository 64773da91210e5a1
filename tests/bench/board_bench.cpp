// What sharing saves: the wall time of a sample board over that of its cells rendered one by one, each laid,
// built and traced by itself as `preview` would. Wall time needs a quiet machine; processor time does not.
// Not part of ctest; run it by hand:
//   .build/release/tests/bench/board_bench [PIXELS] [SAMPLES]
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <string>

#include "output/board/layouts.h"
#include "output/board/render.h"
#include "output/board/section.h"
#include "renderer/render.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/layout_reader.h"

namespace {

using namespace rakelight;

struct Seconds {
    double wall = 0, processor = 0;
};

template <class Work>
Seconds seconds(Work&& work) {
    const auto start = std::chrono::steady_clock::now();
    const std::clock_t busy = std::clock();  // of all threads
    work();
    return {std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count(),
            static_cast<double>(std::clock() - busy) / CLOCKS_PER_SEC};
}

void tell(const char* what, std::size_t cells, const Seconds& s) {
    fmt::print("{:28} {:3} cells {:8.2f} s wall {:8.2f} s of processors\n", what, cells, s.wall, s.processor);
}

Seconds together(const Layout& layout, const BoardPlan& plan, const char* what) {
    BoardWork work;
    const Seconds s = seconds([&] { work = render_board(layout, plan).work; });
    tell(what, plan.cells(), s);
    fmt::print("{:28} {} laid, {} traced\n", "", work.layings, work.renderings);
    return s;
}

Seconds one_by_one(const Layout& layout, const BoardPlan& plan) {
    const auto cells = lay_out_cells(layout, plan);
    const Seconds s = seconds([&] {
        for (const CellLayout& cell : cells) {
            const Laying laying = lay(cell.layout);
            const World world = build_world(cell.layout, laying);
            const Bvh bvh(world);
            render(world, bvh, cell.layout, cell.layout.views.pictures[0]);
        }
    });
    tell("one by one", plan.cells(), s);
    return s;
}

}  // namespace

int main(int argc, char** argv) {
    const std::string file = RAKELIGHT_SCENES "/grout-sampler.yaml";
    const Layout layout = read_layout(file);
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    plan.width_px = argc > 1 ? std::atoi(argv[1]) : 240;
    plan.most_samples = argc > 2 ? std::atoi(argv[2]) : 32;
    plan.error = 1e-6;  // every cell takes all its samples, so that both do the same work
    BoardPlan grouts = plan;
    for (BoardChoice& c : grouts.columns)
        if (c.grout && c.grout->text == "none") c.grout->text = c.label = "moss";
    BoardPlan lit = grouts;
    for (const char* lamps : {"left spot", "right spot", "spots"}) {
        BoardChoice row;
        row.label = lamps;
        row.lamps = {lamps};
        lit.rows.push_back(row);
    }
    lit.rows.erase(lit.rows.begin());
    const Seconds apart = one_by_one(layout, grouts);
    const Seconds joined = together(layout, grouts, "grouts together");
    const Seconds lamps = together(layout, lit, "the same under three lamps");
    fmt::print("grouts: {:.3f} of one by one ({:.3f} of processors)\n", joined.wall / apart.wall,
               joined.processor / apart.processor);
    fmt::print("three lamps instead of one: {:.2f} times ({:.2f})\n", lamps.wall / joined.wall,
               lamps.processor / joined.processor);
}
