// How long it takes to lay 6,000 to 100,000 pieces in each opus, and by which power of their number the time
// grows: 1 is linear. The last line of each opus prints the fitted exponent.
//   laying_bench [--benchmark_filter=musivum]
#include <benchmark/benchmark.h>
#include <fmt/core.h>

#include <chrono>
#include <cmath>
#include <string>
#include <vector>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"

using namespace rakelight;

namespace {

// A panel of about `pieces` pieces 10 by 8 mm with two guides that swing across it; more pieces, more panel.
Layout panel_of(Opus opus, double pieces) {
    Layout layout;
    const double unit = std::sqrt(pieces * 11.2 * 9.2 / 6) / 100;
    layout.panel.width_mm = 300 * unit;
    layout.panel.height_mm = 200 * unit;
    Material glass;
    glass.name = "glass";
    layout.stock = {glass};
    Field field;
    field.name = "whole";
    field.opus = opus;
    field.outline.points_mm = {{0, 0}, {300 * unit, 0}, {300 * unit, 200 * unit}, {0, 200 * unit}};
    field.outline.closed = true;
    field.piece_length_mm = 10;
    field.piece_width_mm = 8;
    field.joint_mm = 1.2;
    layout.tints = {Material()};
    field.mix = {{0, 1}};
    for (const double y : {30.0, 125.0})
        field.guides.push_back({{{-5 * unit, y * unit},
                                 {75 * unit, (y + 35) * unit},
                                 {150 * unit, y * unit},
                                 {225 * unit, (y + 30) * unit},
                                 {310 * unit, (y + 10) * unit}},
                                true});
    layout.fields = {field};
    return layout;
}

struct Timed {
    double pieces = 0, seconds = 0;
};

// Slope of log time over log number, by least squares.
double exponent(const std::vector<Timed>& rows) {
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    const auto n = static_cast<double>(rows.size());
    for (const auto& r : rows) {
        const double x = std::log(r.pieces), y = std::log(r.seconds);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

void lay_one(benchmark::State& state, Opus opus, std::vector<Timed>* rows) {
    const Layout layout = panel_of(opus, static_cast<double>(state.range(0)));
    Timed best{0, 1e300};
    for (auto _ : state) {
        const auto start = std::chrono::steady_clock::now();
        best.pieces = static_cast<double>(lay(layout).pieces.size());
        best.seconds = std::min(
            best.seconds, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    rows->push_back(best);
    state.counters["pieces"] = best.pieces;
    state.counters["us/piece"] = 1e6 * best.seconds / best.pieces;
}

}  // namespace

int main(int argc, char** argv) {
    struct Kind {
        std::string name;
        Opus opus;
        std::vector<Timed> rows;
    };
    std::vector<Kind> kinds;
    for (const OpusRule& rule : opera())
        if (!rule.drawn) kinds.push_back({std::string(rule.word), rule.opus, {}});
    for (auto& kind : kinds) {
        auto* bench = benchmark::RegisterBenchmark(kind.name.c_str(), lay_one, kind.opus, &kind.rows);
        for (const std::int64_t n : {6'000, 12'500, 25'000, 50'000, 100'000}) bench->Arg(n);
        bench->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime()->MeasureProcessCPUTime();
    }
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    for (const auto& kind : kinds)
        if (kind.rows.size() > 2)
            fmt::print("{:13} time grows as pieces ^ {:.2f}\n", kind.name, exponent(kind.rows));
}
