#include "output/stock/json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "output/paper/ink.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kStockVersion = 2;

Json lights_json(const StockReport& report) {
    Json lights = Json::array();
    for (const ReportLight& light : report.lights) {
        const auto [x, y, z] = integrate(light.weights, SampledSpectrum(1));
        Json j{{"name", light.name}, {"title", light.title}, {"cct_k", light.cct_k},  {"duv", light.duv},
               {"ra", light.ra},     {"r9", light.r9},       {"white_xyz", {x, y, z}}};
        if (light.illuminance_lx > 0) j["illuminance_on_panel_lx"] = light.illuminance_lx;
        lights.push_back(j);
    }
    return lights;
}

Json swatch_json(const StockReport& report, const Swatch& swatch, const SwatchSpot& spot) {
    Json lab;
    for (std::size_t i = 0; i < swatch.lab.size(); ++i)
        lab[report.lights[i].name] = {swatch.lab[i].l, swatch.lab[i].a, swatch.lab[i].b};
    const PixelBox box = pixels_of(spot.box, kSheet_px_per_mm);
    const auto& [r, g, b] = swatch.srgb;
    return {{"label", swatch.label},
            {"over", swatch.bed.empty() ? Json() : Json(swatch.bed)},
            {"beside", swatch.beside.empty() ? Json() : Json(swatch.beside)},
            {"perfect_limit", swatch.limit},
            {"thickness_mm", swatch.thickness_mm},
            {"lab", lab},
            {"srgb", fmt::format("#{:02x}{:02x}{:02x}", r, g, b)},
            {"in_srgb", swatch.in_srgb},
            {"reflectance", swatch.reflectance.v},
            {"plot_top_percent", plot_top_percent(swatch.reflectance)},
            {"page", spot.page + 1},
            {"box_px", {box.at_px.x, box.at_px.y, box.size_px.x, box.size_px.y}}};
}

Json entry_json(const StockEntry& entry) {
    const Material& m = entry.material;
    constexpr std::array kPlaces{"glass", "stone", "bed and grout", "round the work"};
    Json cost;
    if (m.cost.amount > 0)
        cost = {{"amount", m.cost.amount},
                {"per", m.cost.per == Cost::Per::kg ? "kg" : "m2"},
                {"per_m2", entry.cost_per_m2()}};
    Json colour_range;
    if (m.colour_range[0] > 0)
        colour_range = {{"D65", m.colour_range[0]}, {"A", m.colour_range[1]}, {"LED-B3", m.colour_range[2]}};
    return {
        {"name", m.name},
        {"place", kPlaces[static_cast<std::size_t>(entry.place)]},
        {"kind", kind_text(m)},
        {"provenance", provenance_text(m.provenance)},
        {"measured_on", m.measured_on.empty() ? Json() : Json(m.measured_on)},
        {"colour_range_ciede2000", colour_range},
        {"thickness_mm", entry.thickness_mm},
        {"density_g_per_cm3", m.density_g_per_cm3},
        {"kg_per_m2", entry.kg_per_m2()},
        {"cost", cost},
        {"tone_spread_share", m.tone_spread},
        {"gloss_units", {{"20_deg", entry.gloss[0]}, {"60_deg", entry.gloss[1]}, {"85_deg", entry.gloss[2]}}},
        {"swatches", Json::array()}};
}

}  // namespace

std::string stock_json(const StockReport& report, const SwatchSheet& sheet, std::uint64_t scene_hash,
                       const std::vector<std::string>& files) {
    Json materials = Json::array();
    for (const StockEntry& entry : report.entries) materials.push_back(entry_json(entry));
    for (const SwatchSpot& spot : sheet.spots)
        materials[spot.entry]["swatches"].push_back(
            swatch_json(report, report.entries[spot.entry].swatches[spot.swatch], spot));
    Json wavelengths = Json::array();
    for (int b = 0; b < kBandCount; ++b) wavelengths.push_back(band_wavelength_nm(b));
    const Json body{{"note", "rendering, not a photograph"},
                    {"panel", report.panel},
                    {"observer", "CIE 1931"},
                    {"geometry", "diffuse light, seen face-on, first-surface light excluded"},
                    {"surround_lightness", kSurroundLightness},
                    {"px_per_mm", kSheet_px_per_mm},
                    {"wavelengths_nm", wavelengths},
                    {"lights", lights_json(report)},
                    {"count", report.entries.size()},
                    {"materials", materials},
                    {"pages", sheet.pages.size()},
                    {"files", files}};
    return json_text(json_head("stock", kStockVersion, {report.program, report.layout_file, scene_hash}),
                     body);
}

}  // namespace rakelight
