// The stock sheet against what it is made from: optics by closed form, PNG against its Lab, page against its
// JSON.
#include "output/stock/swatch_sheet.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/optics/fresnel.h"
#include "materials/stock/face_on.h"
#include "materials/stock/tints.h"
#include "output/print/picture_writer.h"
#include "output/stock/json.h"
#include "output/system/errors.h"
#include "scene/geometry/region.h"
#include "scene/reading/layout_reader.h"
#include "scene/world/surface_cache.h"
#include "tests/support/pixels.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using Json = nlohmann::json;

constexpr const char* kLayout =
    "panel: {name: Tide mark, size: [300, 200]}\n"
    "stock:\n"
    "  ink: {kind: glass, transmittance at 3 mm: [[400, 0.02], [550, 0.3], [700, 0.1]], thickness: 4, "
    "roughness: 0, cost: "
    "38 per kg}\n"
    "  chalk: {kind: stone, reflectance: 60 %, cost: 55.5 per m2, provenance: measured, density: 2.1, tone "
    "spread: 15 %}\n"
    "fields:\n"
    "  - {name: a, outline: [[0, 0], [150, 0], [150, 200], [0, 200]], mix: {ink: 50 %, chalk: 50 %}, bed: "
    "white,"
    " grout: sand}\n"
    "  - {name: b, mix: {ink: 30 %, coral: 30 %, deep-teal: 20 %, slag: 20 %}, bed: epoxy-charcoal, grout: "
    "none}\n"
    "lamps:\n"
    "  - {name: warm, at: [0, 2500, 900], aim: [0, 1450, 0], lumen: 500, temperature: 2700}\n"
    "  - {name: day, at: [400, 2500, 900], aim: [0, 1450, 0], lumen: 500, illuminant: D65}\n";

StockReport report_of(const std::vector<double>& lux) {
    const Layout layout = read_layout_text(kLayout, "mark.yaml");
    return report_stock(layout, lay(layout), lux, "rakelight 0.1.0");
}

const StockEntry& entry(const StockReport& report, const std::string& name) {
    for (const StockEntry& e : report.entries)
        if (e.material.name == name) return e;
    throw std::out_of_range(name);
}

// A streaked glass is shown as its mean, and beside it as the plain glass that it is made from: how far its
// streaks move it can be read off.
TEST(SwatchSheet, AMarkedMaterialIsShownWithoutItsMarkingsToo) {
    const Layout layout = read_layout_text(
        "panel: {size: [300, 200]}\n"
        "stock: {surf: {like: deep-teal, streaks: {of: opal, share: 30 %}}, plain: {like: deep-teal}}\n"
        "fields: [{name: a, mix: {surf: 50 %, plain: 50 %}, bed: white, grout: none}]\n",
        "mark.yaml");
    const std::vector<double> lux(layout.on.lamps.size(), 100);
    const StockReport report = report_stock(layout, lay(layout), lux, "rakelight 0.1.0");
    const StockEntry &surf = entry(report, "surf"), &plain = entry(report, "plain");
    const Swatch& without = surf.swatches.back();
    ASSERT_EQ(without.label, "without markings");
    EXPECT_LT(ciede2000(without.lab[2], plain.swatches.front().lab[2]),
              2);  // but for the width of the pieces
    EXPECT_GT(surf.swatches.front().lab[2].l, without.lab[2].l + 3);
    for (const Swatch& swatch : plain.swatches) EXPECT_NE(swatch.label, "without markings");
}

TEST(SwatchSheet, LampsAreMixedByTheLightTheyBring) {
    const StockReport warm = report_of({300, 0}), day = report_of({0, 120});
    EXPECT_EQ(warm.lights.size(), 4u);
    EXPECT_NEAR(warm.lights[0].cct_k, 2700, 2);
    EXPECT_DOUBLE_EQ(warm.lights[0].illuminance_lx, 300);
    EXPECT_NEAR(day.lights[0].cct_k, 6504, 3);  // CIE 015:2018
    EXPECT_NEAR(day.lights[0].ra, 100, 0.1);
    // Tristimulus values add (Grassmann).
    const StockReport both = report_of({300, 120});
    const auto white = [](const StockReport& r) {
        return integrate(r.lights[0].weights, SampledSpectrum(1));
    };
    for (std::size_t c = 0; c < 3; ++c)
        EXPECT_NEAR(white(both)[c], (300 * white(warm)[c] + 120 * white(day)[c]) / 420, 1e-5);
    EXPECT_THROW(report_of({0, 0}), RequestError);
}

// A clear layer over a perfect backing, lit face-on: down by Bouguer-Lambert, up from a matte backing at
// every angle, and again for what the face throws back inside.
double clear_over_white(double depth, double index) {
    double leaving = 0, returning = 0;
    constexpr int kSteps = 20000;
    for (int i = 0; i < kSteps; ++i) {
        const double up = (i + 0.5) / kSteps, inside = dielectric_reflectance(up, 1 / index);
        leaving += 2 * up * std::exp(-depth / up) * (1 - inside) / kSteps;
        returning += 2 * up * std::exp(-2 * depth / up) * inside / kSteps;
    }
    return (1 - dielectric_reflectance(1.0, index)) * std::exp(-depth) * leaving / (1 - returning);
}

TEST(SwatchSheet, TranslucentStuffOverItsBedsAndLimits) {
    const StockEntry ink = entry(report_of({300, 0}), "ink");
    ASSERT_EQ(ink.swatches.size(), 4u);
    EXPECT_EQ(ink.swatches[0].bed, "white");
    EXPECT_FALSE(ink.swatches[0].limit);
    EXPECT_EQ(ink.swatches[1].bed, "epoxy-charcoal");
    EXPECT_TRUE(ink.swatches[2].limit);
    EXPECT_LT(max_value(ink.swatches[3].reflectance), 1e-4f);  // no scattering: nothing but the face
    for (const auto& [band, transmittance_3mm] :
         {std::pair{0, 0.02}, {7, 0.02 + 0.28 * 140 / 150}, {15, 0.1}}) {
        const double expected = clear_over_white(-std::log(transmittance_3mm) * 4 / 3, 1.52);
        EXPECT_NEAR(ink.swatches[2].reflectance[band], expected, 0.02 * expected) << band;
    }
    // As laid, the joints at its sides are seen too: dark glass over a dark bed shows more than its black
    // limit.
    for (int b = 0; b < kBandCount; ++b) {
        EXPECT_LT(ink.swatches[1].reflectance[b], ink.swatches[0].reflectance[b] + 1e-7f);
        EXPECT_GE(ink.swatches[1].reflectance[b], ink.swatches[3].reflectance[b]);
    }
    InterfaceTables tables;
    const SampledSpectrum no_joints = face_on_reflectance(ink.material, ink.swatches[0].thickness_mm,
                                                          find_tint("white")->reflectance, 1, tables);
    for (int b = 0; b < kBandCount; ++b) EXPECT_LT(no_joints[b], ink.swatches[2].reflectance[b]);
}

TEST(SwatchSheet, FactsOfAMaterial) {
    const StockReport report = report_of({300, 0});
    const StockEntry &ink = entry(report, "ink"), &chalk = entry(report, "chalk");
    EXPECT_DOUBLE_EQ(ink.kg_per_m2(), 2.5 * 4);
    EXPECT_DOUBLE_EQ(ink.cost_per_m2(), 38 * 10);
    EXPECT_DOUBLE_EQ(chalk.cost_per_m2(), 55.5);
    EXPECT_DOUBLE_EQ(entry(report, "coral").cost_per_m2(), 0);
    EXPECT_EQ(provenance_text(chalk.material.provenance), "measured");
    EXPECT_EQ(chalk.place, StockPlace::stone);
    EXPECT_EQ(entry(report, "sand").place, StockPlace::tint);
    EXPECT_EQ(entry(report, "gallery-white").place, StockPlace::room);
    ASSERT_EQ(chalk.swatches.size(), 3u);
    // A stone of flat 60 % is 60 % in every direction when its facets are flat: L* = 116 cbrt(0.6) - 16.
    if (chalk.material.index == 1 && chalk.material.matte_deg == 0) {
        EXPECT_NEAR(chalk.swatches[0].lab[0].l, 116 * std::cbrt(0.6) - 16, 0.01);
    }
    EXPECT_LT(chalk.swatches[1].lab[0].l, chalk.swatches[0].lab[0].l);
    EXPECT_GT(chalk.swatches[2].lab[0].l, chalk.swatches[0].lab[0].l);
    EXPECT_GT(entry(report, "coral").gloss[1], 50);
    EXPECT_LT(chalk.gloss[1], 10);
    EXPECT_GT(entry(report, "slag").gloss[1], 1);
}

// What the sheet shows of glass is what a picture is traced with, the grout at its sides included: the
// surface of a laid piece, face-on, less what its face mirrors.
TEST(SwatchSheet, ShowsWhatThePictureShows) {
    const Layout layout = read_layout_text(
        "panel: {size: [100, 80]}\n"
        "fields: [{name: all, piece: 8, joint: 1, opus: regulatum, mix: aqua, thickness: 6, bed: white, "
        "grout: "
        "charcoal}]\n"
        "lamps: [{name: day, at: [0, 2500, 900], aim: [0, 1450, 0], lumen: 500, illuminant: D65}]\n",
        "grid.yaml");
    const Laying laying = lay(layout);
    const StockReport report = report_stock(layout, laying, {300}, "rakelight");
    const Swatch& swatch = entry(report, "aqua").swatches[0];
    EXPECT_EQ(swatch.beside, "charcoal");
    World world;
    world.interfaces = std::make_shared<InterfaceTables>();
    SurfaceCache cache(world, layout);
    double edge = 0, area = 0;
    for (const Piece& piece : laying.pieces)
        edge += perimeter_mm(piece.outline_mm), area += area_mm2(piece.outline_mm);
    Piece usual = laying.pieces.front();
    const double side = 4 * area / edge;  // a square with as much edge
    usual.outline_mm = {{0, 0}, {side, 0}, {side, side}, {0, side}};
    usual.thickness_mm = 6;
    const Material& aqua = layout.stock[usual.material];
    const Object object = cache.object(usual.material, aqua, 6, &usual, 1, 0);
    const Surface& surface = world.surfaces[object.surface];
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(swatch.reflectance[b], directional_albedo(surface, 1)[b] - (1 - surface.transmittance(1)),
                    1e-5f);
    // Charcoal beside it takes light that a white bed would give back.
    InterfaceTables tables;
    const SampledSpectrum without =
        face_on_reflectance(aqua, 6, layout.tints[layout.fields[0].bed].reflectance, 1, tables);
    EXPECT_LT(mean(swatch.reflectance), 0.9f * mean(without));
}

// What lies on metal or on an opaque sheet of its own shows no bed.
TEST(SwatchSheet, LeafAndBackedGlassHaveNoBed) {
    Layout layout = read_layout_text(kLayout, "mark.yaml");
    for (Material& m : layout.stock) {
        if (m.name == "deep-teal") m.leaf = Leaf::gold;
        if (m.name == "ink") m.backed = true, m.reflectance = SampledSpectrum(0.5f);
    }
    const StockReport report = report_stock(layout, lay(layout), {300, 0}, "rakelight");
    for (const char* name : {"deep-teal", "ink"}) {
        EXPECT_EQ(entry(report, name).swatches[0].label, "as laid");
        for (const Swatch& swatch : entry(report, name).swatches) EXPECT_EQ(swatch.bed, "") << name;
    }
    EXPECT_EQ(kind_text(entry(report, "deep-teal").material), "glass over gold leaf");
    EXPECT_EQ(kind_text(entry(report, "ink").material), "glass on an opaque sheet");
}

// Each pixel of each swatch, read back from the file as sRGB (IEC 61966-2-1), has the Lab that stands beside
// it: within 1 by CIEDE2000, and within 0.3 of a neutral's 8-bit step on the average.
TEST(SwatchSheet, SwatchesReadBackAsTheirLab) {
    const StockReport report = report_of({300, 40});
    const SwatchSheet sheet = make_swatch_sheet(report);
    const test::Folder folder;
    std::vector<test::Pixels> pages;
    for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
        const auto path = folder / (std::to_string(i) + ".png");
        write_png(path, print_page(sheet.pages[i], kSheet_px_per_mm), {});
        pages.emplace_back(path);
        EXPECT_EQ(pages.back().width, 2100);
        EXPECT_EQ(pages.back().height, 2970);
    }
    int judged = 0, vivid = 0;
    for (const SwatchSpot& spot : sheet.spots) {
        const Swatch& swatch = report.entries[spot.entry].swatches[spot.swatch];
        const PixelBox box = pixels_of(spot.box, kSheet_px_per_mm);
        const test::Pixels& page = pages[spot.page];
        std::set<std::array<std::uint8_t, 3>> colours;
        for (int y = box.at_px.y; y < box.at_px.y + box.size_px.y; ++y)
            for (int x = box.at_px.x; x < box.at_px.x + box.size_px.x; ++x) {
                const auto* p = &page.rgb[3 * static_cast<std::size_t>(y * page.width + x)];
                colours.insert({p[0], p[1], p[2]});
            }
        ASSERT_EQ(colours.size(), 1u) << swatch.label;
        const Lab seen = xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes(*colours.begin()))), xyz_of(kD65));
        if (swatch.in_srgb) {
            EXPECT_LT(ciede2000(seen, swatch.lab[0]), 1) << report.entries[spot.entry].material.name;
            ++judged;
        } else {
            EXPECT_LT(std::hypot(seen.a, seen.b), std::hypot(swatch.lab[0].a, swatch.lab[0].b) + 0.5);
            ++vivid;
        }
    }
    EXPECT_GT(judged, 10);
    // The surround is a neutral of L* 55.
    const std::array<std::uint8_t, 3> corner{pages[0].rgb[0], pages[0].rgb[1], pages[0].rgb[2]};
    const Lab paper = xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes(corner))), xyz_of(kD65));
    EXPECT_LT(ciede2000(paper, {55, 0, 0}), 0.5);
}

void collect(const Json& j, std::vector<double>& numbers, std::vector<std::string>& words) {
    if (j.is_number()) numbers.push_back(j.get<double>());
    if (j.is_string()) words.push_back(j.get<std::string>());
    for (const auto& [key, value] : j.items())
        if (j.is_structured()) {
            words.push_back(key);
            collect(value, numbers, words);
        }
}

// Every figure on the pages stands in the JSON, rounded as printed.
TEST(SwatchSheet, EveryNumberIsInTheJson) {
    const StockReport report = report_of({300, 40});
    const SwatchSheet sheet = make_swatch_sheet(report);
    std::vector<std::string> files;
    for (std::size_t i = 0; i < sheet.pages.size(); ++i)
        files.push_back("stock-" + std::to_string(i + 1) + ".png");
    const Json json = Json::parse(stock_json(report, sheet, 0, files));
    EXPECT_EQ(json.at("format"), "rakelight stock");
    EXPECT_EQ(json.at("version"), 2);
    EXPECT_EQ(json.at("materials").size(), report.entries.size());
    EXPECT_EQ(json.at("lights").size(), 4u);
    std::vector<double> numbers;
    std::vector<std::string> words;
    collect(json, numbers, words);

    const std::regex figure("-?[0-9]+(\\.[0-9]+)?");
    int checked = 0;
    for (const Page& page : sheet.pages)
        for (const PageText& text : page.texts) {
            std::string line = std::regex_replace(text.text, std::regex("\u2212"), "-");
            if (std::any_of(words.begin(), words.end(), [&](const std::string& w) { return w == line; }))
                continue;
            line = std::regex_replace(line, std::regex("rakelight 0.1.0|epoxy-|LED-B3|D65|cm³|m²"), "");
            for (std::sregex_iterator it(line.begin(), line.end(), figure), end; it != end; ++it) {
                const std::string token = it->str();
                const std::size_t point = token.find('.');
                const double half = 0.5 * std::pow(10, point == std::string::npos
                                                           ? 0
                                                           : -static_cast<double>(token.size() - point - 1));
                const double value = std::stod(token);
                const bool known =
                    std::any_of(numbers.begin(), numbers.end(),
                                [&](double n) { return std::abs(n - value) <= half * (1 + 1e-6); }) ||
                    std::any_of(words.begin(), words.end(),
                                [&](const std::string& w) { return w == token + "_deg"; });
                EXPECT_TRUE(known) << token << " in \"" << text.text << '"';
                ++checked;
            }
        }
    EXPECT_GT(checked, 100);
}

// The columns of each material are its own: name, then Lab under each light, as the JSON of that name says.
TEST(SwatchSheet, LabColumnsAreThoseOfTheirRow) {
    const StockReport report = report_of({300, 40});
    const SwatchSheet sheet = make_swatch_sheet(report);
    const Json json = Json::parse(stock_json(report, sheet, 0, {}));
    int rows = 0;
    for (const Page& page : sheet.pages)
        for (const PageText& name : page.texts)
            for (const Json& material : json.at("materials")) {
                if (!name.bold || name.text != material.at("name") || name.baseline_mm.x > 80) continue;
                ++rows;
                for (const char* axis : {"A", "D65", "LED-B3", "lamps"}) {
                    double line = -1;
                    for (const PageText& t : page.texts)
                        if (t.text == axis && t.baseline_mm.y >= name.baseline_mm.y - 0.01 &&
                            t.baseline_mm.y < name.baseline_mm.y + 14)
                            line = t.baseline_mm.y;
                    ASSERT_GT(line, 0) << axis;
                    std::vector<double> figures;
                    for (const PageText& t : page.texts)
                        if (t.align == Align::right && t.baseline_mm.y == line && t.baseline_mm.x > 160)
                            figures.push_back(
                                std::stod(std::regex_replace(t.text, std::regex("\u2212"), "-")));
                    ASSERT_EQ(figures.size(), 3u);
                    for (std::size_t k = 0; k < 3; ++k)
                        EXPECT_NEAR(figures[k],
                                    material.at("swatches")[0].at("lab").at(axis)[k].get<double>(), 0.0501);
                }
            }
    EXPECT_GE(rows, static_cast<int>(report.entries.size()));
}

// Nothing is set outside the margins or over its neighbour's swatch, however many beds and however long the
// names.
TEST(SwatchSheet, StaysOnThePage) {
    std::string text = "panel: {name: " + std::string(120, 'W') + ", size: [300, 200]}\nstock:\n  " +
                       std::string(60, 'M') + ": {like: aqua}\nfields:\n";
    int k = 0;
    for (const char* bed : {"white", "ivory", "charcoal", "epoxy-deep-blue", "epoxy-slate-blue",
                            "epoxy-terracotta", "moss", "epoxy-pale-grey", "ochre"})
        text += "  - {name: f" + std::to_string(k++) + ", mix: {" + std::string(60, 'M') +
                ": 50 %, deep-teal: 50 %}, bed: " + bed + "}\n";
    const Layout layout = read_layout_text(text, "wide.yaml");
    const StockReport report =
        report_stock(layout, Laying(), std::vector<double>(layout.on.lamps.size(), 100), "rakelight");
    const SwatchSheet sheet = make_swatch_sheet(report);
    for (const Page& page : sheet.pages)
        for (const PageText& t : page.texts) {
            const double w = width_mm(t);
            const double left = t.align == Align::right ? t.baseline_mm.x - w : t.baseline_mm.x;
            EXPECT_GE(left, 13.9) << t.text;
            EXPECT_LE(left + w, 196.5) << t.text;
            EXPECT_LT(t.baseline_mm.y, 292) << t.text;
        }
    for (const SwatchSpot& a : sheet.spots) {
        EXPECT_LT(a.box.at_mm.x + a.box.size_mm.x, 75);
        EXPECT_LT(a.box.at_mm.y + a.box.size_mm.y, 283);
        for (const SwatchSpot& b : sheet.spots) {
            if (a.page != b.page || (a.entry == b.entry && a.swatch == b.swatch)) continue;
            const bool apart = a.box.at_mm.x + a.box.size_mm.x < b.box.at_mm.x ||
                               b.box.at_mm.x + b.box.size_mm.x < a.box.at_mm.x ||
                               a.box.at_mm.y + a.box.size_mm.y < b.box.at_mm.y ||
                               b.box.at_mm.y + b.box.size_mm.y < a.box.at_mm.y;
            EXPECT_TRUE(apart);
        }
    }
}

TEST(SwatchSheet, PlotScale) {
    for (const auto& [reflectance, top] :
         {std::pair{0.004f, 1}, {0.01f, 1}, {0.011f, 2}, {0.2f, 25}, {0.51f, 100}, {1.f, 100}})
        EXPECT_EQ(plot_top_percent(SampledSpectrum(reflectance)), top) << reflectance;
}

}  // namespace
}  // namespace rakelight
