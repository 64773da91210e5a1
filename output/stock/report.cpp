#include "output/stock/report.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "materials/colour/colour_temperature.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/observer.h"
#include "materials/colour/rendering_index.h"
#include "materials/optics/marked.h"
#include "materials/optics/surface.h"
#include "materials/stock/face_on.h"
#include "materials/stock/gloss.h"
#include "output/print/printed_colour.h"
#include "output/system/errors.h"
#include "scene/forms/side_wall.h"
#include "scene/geometry/polygon.h"
#include "scene/laying/laying.h"
#include "scene/light/daylight_level.h"
#include "scene/light/emitter.h"
#include "scene/light/surround_emitters.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

ReportLight make_light(const std::string& name, const Spectrum& spectrum) {
    ReportLight light;
    light.name = name;
    light.title = name;
    light.weights = tristimulus_weights(spectrum);
    const CorrelatedTemperature temperature = correlated_temperature(spectrum_to_xyz(spectrum));
    light.cct_k = temperature.cct_k;
    light.duv = temperature.duv;
    const RenderingIndex index = rendering_index(spectrum);
    light.ra = index.general;
    light.r9 = index.r9();
    return light;
}

// Of the lamps, then of the windows as window_lights lists them; ground is taken as lit and coloured like the
// sky.
std::vector<Spectrum> light_spectra(const Layout& layout) {
    std::vector<Spectrum> spectra;
    for (const Lamp& lamp : layout.on.lamps) spectra.push_back(lamp_spectrum(lamp));
    for (const WindowLight& light : window_lights(layout, {}))
        spectra.push_back(
            light.emitter.surround   ? surround_spectrum(std::get<SurroundPart>(light.emitter.shape))
            : light.name == kSunName ? sun_spectrum(look_outside(layout.on.daylight).altitude_deg)
                                     : sky_spectrum(layout.on.daylight));
    return spectra;
}

// All lamps and windows together, each by the light it brings to the panel.
ReportLight layout_light(const Layout& layout, const std::vector<double>& lamp_lx) {
    const std::vector<Spectrum> spectra = light_spectra(layout);
    Spectrum all;
    double total_lx = 0;
    for (std::size_t i = 0; i < lamp_lx.size(); ++i) {
        if (!(lamp_lx[i] > 0)) continue;
        const Spectrum& lamp = spectra.at(i);
        double luminous = 0;
        for (int k = 0; k < kSpectrumCount; ++k) luminous += lamp[k] * kObserver1931.y_bar[k];
        for (int k = 0; k < kSpectrumCount; ++k) all[k] += lamp_lx[i] / luminous * lamp[k];
        total_lx += lamp_lx[i];
    }
    if (!(total_lx > 0))
        throw RequestError(
            "no light falls on the panel: a stock sheet needs a lamp or a window that reaches it");
    ReportLight light = make_light("lamps", all);
    light.title = "the layout's lamps";
    light.illuminance_lx = total_lx;
    return light;
}

Xyz seen_under(const TristimulusWeights& light, const SampledSpectrum& reflectance) {
    const auto [x, y, z] = integrate(light, reflectance);
    return {x, y, z};
}

// The swatch has the Lab that is printed beside it.
void colour(Swatch& swatch, const std::vector<ReportLight>& lights) {
    for (const ReportLight& light : lights)
        swatch.lab.push_back(xyz_to_lab(seen_under(light.weights, swatch.reflectance),
                                        seen_under(light.weights, SampledSpectrum(1))));
    const PrintedColour printed = printed_colour(swatch.lab.front());
    swatch.in_srgb = printed.in_srgb;
    swatch.srgb = printed.srgb;
}

// A material's surfaces: slag has patches of a second.
struct Faces {
    Surface main;
    Surface glassy;
    float glassy_share = 0;

    template <class F>
    auto mean(F&& f) const {
        return glassy_share > 0 ? f(main) * (1 - glassy_share) + f(glassy) * glassy_share : f(main);
    }
};

class Bench {
  public:
    Faces surfaces(const Material& m, double thickness_mm, const SampledSpectrum& backing, double tone) {
        Faces faces;
        faces.main = make_surface(m, thickness_mm, backing, tone, tables_);
        if (m.glassy_share > 0) faces.glassy = make_glassy_surface(m, tone, tables_);
        faces.glassy_share = m.glassy_share;
        return faces;
    }

    SampledSpectrum body_reflectance(const Material& m, double thickness_mm, const SampledSpectrum& backing,
                                     double tone, const SideWall& side) {
        return face_on_reflectance(m, thickness_mm, backing, tone, tables_, side);
    }

    double gloss(const Faces& faces, GlossAngle angle) {
        return faces.mean([&](const Surface& s) { return gloss_units(s, angle); });
    }

  private:
    InterfaceTables tables_;
};

// A way a material is laid. Bed: null where none is seen; beside: what shows at its sides.
struct Laid {
    const Material* bed = nullptr;
    double thickness_mm = 0;
    const Material* beside = nullptr;
    SideWall side;

    bool operator==(const Laid& other) const {
        return bed == other.bed && thickness_mm == other.thickness_mm && beside == other.beside &&
               side.across_mm == other.side.across_mm && side.bonded_mm == other.side.bonded_mm;
    }
};

Laid laid_in_field(const Layout& layout, const Laying& laying, std::size_t f, std::uint32_t stock) {
    const Field& field = layout.fields[f];
    const Material& m = layout.stock[stock];
    Laid way;
    way.thickness_mm = field.thickness_mm > 0 ? field.thickness_mm : static_cast<double>(m.thickness_mm);
    if (!shows_bed(m)) return way;
    way.bed = &layout.tints[field.bed];
    way.side =
        side_wall(layout.tints, field, edge_of_pieces(field, laying.pieces, f, stock), way.thickness_mm, m);
    if (way.side.shows()) way.beside = &layout.tints[filling_of(field)];
    return way;
}

// What is listed: a material of the stock or a tint.
struct Listed {
    const Material& material;
    std::optional<std::uint32_t> stock;  // index; none = a tint
};

std::vector<Laid> ways_laid(const Layout& layout, const Laying& laying, const Listed& listed) {
    const Material& m = listed.material;
    std::vector<Laid> ways;
    const auto add = [&](const Laid& way) {
        if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
    };
    for (std::size_t f = 0; f < layout.fields.size(); ++f)
        for (const MixPart& part : layout.fields[f].mix)
            if (part.material == listed.stock) add(laid_in_field(layout, laying, f, *listed.stock));
    for (const PlacedStone& stone : layout.stones)
        if (stone.material == listed.stock && !m.opaque) add({nullptr, stone.size_mm.z, nullptr, {}});
    if (ways.empty()) ways.push_back({nullptr, m.thickness_mm, nullptr, {}});
    return ways;
}

// Joints are named where they alone tell two ways apart.
std::string label_of(const Laid& way, const std::vector<Laid>& ways) {
    std::string label = way.bed ? "over " + way.bed->name : "over nothing";
    const auto alike = [&](const Laid& other) { return other.bed == way.bed && other.beside != way.beside; };
    if (way.beside && std::ranges::any_of(ways, alike)) label += ", " + way.beside->name + " joints";
    return label;
}

// The same glass or stone without its second colours and seeds: how far they move the mean.
Swatch without_markings(const StockEntry& entry, const Laid& way, Bench& bench) {
    Swatch swatch{.label = "without markings",
                  .bed = way.bed ? way.bed->name : "",
                  .beside = way.beside ? way.beside->name : "",
                  .thickness_mm = entry.thickness_mm};
    Material plain = entry.material;
    plain.markings = {};
    swatch.reflectance = bench.body_reflectance(
        plain, swatch.thickness_mm, way.bed ? way.bed->reflectance : SampledSpectrum(), 1, way.side);
    return swatch;
}

void add_swatches(StockEntry& entry, const std::vector<Laid>& ways, Bench& bench) {
    const Material& m = entry.material;
    const auto add = [&](Swatch swatch, const SampledSpectrum& backing, double tone = 1,
                         const SideWall& side = {}) {
        swatch.reflectance = bench.body_reflectance(m, swatch.thickness_mm, backing, tone, side);
        entry.swatches.push_back(std::move(swatch));
    };
    if (!shows_bed(m)) {
        add({.label = "as laid", .thickness_mm = entry.thickness_mm}, SampledSpectrum());
        if (m.tone_spread > 0 && !(m.opaque && m.leaf != Leaf::none)) {
            add({.label = "darker piece", .thickness_mm = entry.thickness_mm}, SampledSpectrum(),
                std::exp(m.tone_spread));
            add({.label = "lighter piece", .thickness_mm = entry.thickness_mm}, SampledSpectrum(),
                std::exp(-m.tone_spread));
        }
        return;
    }
    for (const Laid& way : ways)
        add({.label = label_of(way, ways),
             .bed = way.bed ? way.bed->name : "",
             .beside = way.beside ? way.beside->name : "",
             .thickness_mm = way.thickness_mm},
            way.bed ? way.bed->reflectance : SampledSpectrum(), 1, way.side);
    add({.label = "over pure white", .bed = "white", .limit = true, .thickness_mm = entry.thickness_mm},
        SampledSpectrum(1));
    add({.label = "over pure black", .bed = "black", .limit = true, .thickness_mm = entry.thickness_mm},
        SampledSpectrum(0));
}

StockEntry make_entry(const Layout& layout, const Laying& laying, const Listed& listed, StockPlace place,
                      const std::vector<ReportLight>& lights, Bench& bench) {
    StockEntry entry;
    entry.place = place;
    const Material& m = entry.material = listed.material;
    const std::vector<Laid> ways = ways_laid(layout, laying, listed);
    const Laid first = ways.front();
    entry.thickness_mm =
        m.opaque && first.thickness_mm <= 0 ? static_cast<double>(m.thickness_mm) : first.thickness_mm;
    add_swatches(entry, ways, bench);
    if (has_looks(m)) entry.swatches.push_back(without_markings(entry, first, bench));
    for (Swatch& swatch : entry.swatches) colour(swatch, lights);
    const SampledSpectrum backing = first.bed ? first.bed->reflectance : SampledSpectrum();
    const Faces faces = bench.surfaces(m, entry.thickness_mm, backing, 1);
    entry.gloss = {bench.gloss(faces, GlossAngle::deg20), bench.gloss(faces, GlossAngle::deg60),
                   bench.gloss(faces, GlossAngle::deg85)};
    return entry;
}

std::set<std::uint32_t> laid_in_panel(const Layout& layout) {
    std::set<std::uint32_t> stock;
    for (const Field& field : layout.fields)
        for (const MixPart& part : field.mix) stock.insert(part.material);
    for (const PlacedStone& stone : layout.stones) stock.insert(stone.material);
    return stock;
}

StockPlace place_of(const Listed& listed, const std::set<std::uint32_t>& laid) {
    if (!listed.stock) return StockPlace::tint;
    if (!laid.contains(*listed.stock)) return StockPlace::room;
    return listed.material.kind == Kind::glass ? StockPlace::glass : StockPlace::stone;
}

}  // namespace

bool shows_bed(const Material& m) {
    return !m.opaque && !m.backed && m.leaf == Leaf::none;
}

double StockEntry::cost_per_m2() const {
    return material.cost.per == Cost::Per::m2 ? material.cost.amount : material.cost.amount * kg_per_m2();
}

StockReport report_stock(const Layout& layout, const Laying& laying, const std::vector<double>& lamp_lx,
                         const std::string& program) {
    StockReport report;
    report.panel = layout.panel.name;
    report.layout_file = std::filesystem::path(layout.sources.path).filename().string();
    report.program = program;
    report.lights.push_back(layout_light(layout, lamp_lx));
    for (const char* name : {"A", "D65", "LED-B3"})
        report.lights.push_back(make_light(name, *find_illuminant(name)));

    Bench bench;
    const std::set<std::uint32_t> laid = laid_in_panel(layout);
    std::vector<Listed> all;
    for (std::uint32_t i = 0; i < layout.stock.size(); ++i) all.push_back({layout.stock[i], i});
    for (const Material& tint : layout.tints) all.push_back({tint, std::nullopt});
    for (const StockPlace place : {StockPlace::glass, StockPlace::stone, StockPlace::tint, StockPlace::room})
        for (const Listed& listed : all)
            if (place_of(listed, laid) == place)
                report.entries.push_back(make_entry(layout, laying, listed, place, report.lights, bench));
    return report;
}

}  // namespace rakelight
