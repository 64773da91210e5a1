// Closing the loop with our own tracer, and named as such: a test piece of six materials and the chart are
// rendered as the simulated camera sees them, read, and rendered again from the stock that was read. It
// proves that reading and rendering mean the same thing, not that either is right.
#include <gtest/gtest.h>

#include "output/samples/as_lit.h"
#include "output/samples/stock_text.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/simulated_camera.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using namespace test;

struct Tile {
    const char* name;
    const char* bed;
};
constexpr std::array<Tile, 8> kTiles{{{"brick", "white-bed"},
                                      {"slab", "white-bed"},
                                      {"enamel", "white-bed"},
                                      {"lagoon", "white-bed"},
                                      {"lagoon", "black-bed"},
                                      {"amber", "white-bed"},
                                      {"amber", "black-bed"},
                                      {"white-card", "white-bed"}}};

// Smooth, as paints and glasses are. An enamel with a sharp peak at 460 nm comes back 3.3 off: three channels
// do not see that it is sharp.
constexpr const char* kTrueStock =
    "  brick: {kind: stone, reflectance: [[400, 0.08], [500, 0.1], [560, 0.14], [620, 0.34], [700, 0.42]]}\n"
    "  slab: {kind: stone, reflectance: [[400, 0.2], [500, 0.32], [600, 0.27], [700, 0.25]]}\n"
    "  enamel: {kind: glass, reflectance: [[400, 0.4], [430, 0.47], [460, 0.48], [490, 0.43], [520, 0.34], "
    "[560, 0.22], [600, 0.17], [650, 0.17], [700, 0.2]]}\n"
    "  lagoon: {kind: glass, transmittance at 3 mm: [[400, 0.3], [480, 0.7], [540, 0.75], [620, 0.4], [700, "
    "0.45]], "
    "milkiness: 0.1, thickness: 3}\n"
    "  amber: {kind: glass, transmittance at 3 mm: [[400, 0.1], [480, 0.3], [560, 0.7], [640, 0.85], [700, "
    "0.88]], "
    "milkiness: 0.02, thickness: 3}\n";

std::string field(const std::string& name, const std::string& mix, const std::string& bed,
                  std::size_t place) {
    const double x = 10 + 45.0 * static_cast<double>(place % 8),
                 y = 10 + 45.0 * static_cast<double>(place / 8);
    return fmt::format(
        "  - {{name: {}, outline: [[{}, {}], [{}, {}], [{}, {}], [{}, {}]], opus: regulatum, piece: 40, "
        "joint: 0.5, mix: {}, bed: {}, grout: none}}\n",
        name, x, y, x + 40.4, y, x + 40.4, y + 40.4, x, y + 40.4, mix, bed);
}

std::string layout_text(const std::string& stock) {
    std::string text =
        "panel: {size: [380, 200]}\nroom: {size: [8000, 8000, 6000], wall: deep-grey, panel centre height: "
        "3000}\n"
        "tints:\n  white-bed: {kind: cement, reflectance: 0.85}\n  black-bed: {kind: cement, reflectance: "
        "0.045}\n"
        "stock:\n" +
        stock + "  white-card: {kind: paint, reflectance: 0.85, index: 1, matte: 0}\n";
    std::string fields = "fields:\n";
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        text += fmt::format("  patch-{}: {{kind: paint, index: 1, matte: 0, reflectance: [", i);
        for (int b = 0; b < kBandCount; ++b)
            text +=
                fmt::format("{}[{}, {}]", b ? ", " : "", band_wavelength_nm(b), chart24()[i].reflectance[b]);
        text += "]}\n";
        fields += field(fmt::format("p{}", i), fmt::format("patch-{}", i), "white-bed", i);
    }
    for (std::size_t i = 0; i < kTiles.size(); ++i)
        fields += field(fmt::format("t{}", i), kTiles[i].name, kTiles[i].bed, kChartPatches + i);
    return text + fields +
           "lamps:\n  - {name: left, at: [-2000, 3000, 2000], aim: [0, 3000, 0], candela: 4000, beam angle: "
           "60, "
           "illuminant: D65}\n"
           "  - {name: right, at: [2000, 3000, 2000], aim: [0, 3000, 0], candela: 4000, beam angle: 60, "
           "illuminant: D65}\n"
           "viewpoints:\n  - {name: straight, distance: 2500, height: 3000, view width: 400}\n"
           "pictures:\n  - {name: straight, size: [400, 220], grain: 1 %, most samples: 64}\n";
}

/// What a camera sees of the bands under a lamp, in place of what an eye does: linear between bands.
TristimulusWeights camera_weights() {
    const Sensitivities camera = measured_camera();
    const Spectrum light = *find_illuminant("D65");
    TristimulusWeights w;
    SampledSpectrum* const channels[] = {&w.x, &w.y, &w.z};
    for (std::size_t c = 0; c < 3; ++c) {
        double sum = 0;
        for (int i = 0; i < kSpectrumCount; ++i) {
            const double at =
                std::clamp((spectrum_wavelength_nm(i) - kFirstBand_nm) / double(kBandStep_nm), 0.0, 15.0);
            const int low = std::min(static_cast<int>(at), kBandCount - 2);
            const double power = camera[c][i] * light[i];
            (*channels[c])[low] += static_cast<float>(power * (low + 1 - at));
            (*channels[c])[low + 1] += static_cast<float>(power * (at - low));
            sum += power;
        }
        *channels[c] /= static_cast<float>(sum);
    }
    return w;
}

/// Mean of the middle of a tile, in cd/m2 of the film's three channels, and its place in the picture.
Reading read_tile(const Film& film, std::size_t place) {
    const glm::dvec2 panel_mm(380, 200);
    const double px_per_mm = film.width / 400.0;
    const glm::dvec2 middle_mm(10 + 45.0 * static_cast<double>(place % 8) + 20,
                               10 + 45.0 * static_cast<double>(place / 8) + 20);
    const glm::dvec2 px = glm::dvec2(film.width, film.height) / 2.0 +
                          px_per_mm * glm::dvec2(middle_mm.x - panel_mm.x / 2, panel_mm.y / 2 - middle_mm.y);
    Reading r;
    r.at = px / static_cast<double>(film.width);
    int count = 0;
    for (int y = -8; y < 8; ++y)
        for (int x = -8; x < 8; ++x, ++count) {
            const glm::vec3 v =
                total_xyz(film, static_cast<std::size_t>((static_cast<int>(px.y) + y) * film.width +
                                                         static_cast<int>(px.x) + x));
            for (int c = 0; c < 3; ++c) r.value[static_cast<std::size_t>(c)] += static_cast<double>(v[c]);
        }
    for (double& v : r.value) v /= count;
    return r;
}

Film film_of(const Layout& layout, bool camera) {
    World world = build_world(layout, lay(layout));
    for (Emitter& e : world.emitters)
        if (camera) e.weights = camera_weights();
    const Bvh bvh(world);
    RenderOptions options;
    options.card_cd_per_m2 = 20;
    return render(world, bvh, layout, layout.views.pictures.front(), options);
}

/// The stock that the film of a camera tells.
std::string stock_read(const Film& film) {
    ChartReadings chart;
    chart.linear = true;
    for (std::size_t i = 0; i < kChartPatches; ++i) chart.patches[i] = read_tile(film, i);
    const ChartFit fit = fit_chart(chart);
    const auto seen = [&](std::size_t tile) {
        const Reading r = read_tile(film, kChartPatches + tile);
        return estimate_reflectance(std::array{SeenSample{fit.camera, undone(fit, r), r.usable, 0.01}})
            .reflectance;
    };
    const auto face = [](Kind kind) {
        Material m;
        m.kind = kind;
        m.index = kind == Kind::glass ? 1.52f : 1.f;
        m.matte_deg = kind == Kind::stone ? 25.f : 0.f;
        m.thickness_mm = 3;
        m.measured_on = "2026-11-27";
        return m;
    };
    SamplesReport report;
    const auto add = [&](const char* name, Material m) {
        report.samples.push_back({name, std::move(m), LitFrom::side, Lying::dry, {}, false});
    };
    add("brick", with_seen(face(Kind::stone), seen(0), LitFrom::side));
    add("slab", with_seen(face(Kind::stone), seen(1), LitFrom::side));
    add("enamel", with_seen(face(Kind::glass), seen(2), LitFrom::side));
    for (const auto& [name, white] : {std::pair("lagoon", 3u), std::pair("amber", 5u)})
        add(name, with_glass(face(Kind::glass),
                             glass_of_seen({seen(white), seen(white + 1), SampledSpectrum(0.85f),
                                            SampledSpectrum(0.045f), 3, 1.52},
                                           LitFrom::side, Lying::bonded),  // its bed is in contact
                             3));
    const std::string text = stock_text(report);
    return text.substr(text.find("stock:\n") + 7);
}

TEST(ClosingTheLoop, ATestPieceRenderedPhotographedReadAndRenderedAgain) {
    const Layout truth = read_layout_text(layout_text(kTrueStock), "truth.yaml");
    const std::string stock = stock_read(film_of(truth, true));
    const Layout again = read_layout_text(layout_text(stock), "again.yaml");
    const Film before = film_of(truth, false), after = film_of(again, false);
    const Reading white = read_tile(before, kFirstGrey);
    const Xyz paper{white.value[0] / 0.887, white.value[1] / 0.887, white.value[2] / 0.887};
    for (std::size_t i = 0; i < kTiles.size(); ++i) {
        const auto a = read_tile(before, kChartPatches + i).value,
                   b = read_tile(after, kChartPatches + i).value;
        EXPECT_LT(ciede2000(xyz_to_lab({a[0], a[1], a[2]}, paper), xyz_to_lab({b[0], b[1], b[2]}, paper)), 2)
            << kTiles[i].name << " on " << kTiles[i].bed;
    }
}

}  // namespace
}  // namespace rakelight
