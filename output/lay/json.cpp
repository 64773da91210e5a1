#include "output/lay/json.h"

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kLayingVersion = 2;

Json counts_json(const std::vector<Material>& stock, const LayingReport& report,
                 const std::vector<LaidCount>& counts, double of_mm2) {
    Json list = Json::array();
    for (const LaidCount& c : counts)
        list.push_back({{"material", stock[c.material].name},
                        {"letter", report.code[c.material]},
                        {"count", c.count},
                        {"area_mm2", c.area_mm2},
                        {"share", of_mm2 > 0 ? c.area_mm2 / of_mm2 : 0},
                        {"mass_g", c.mass_g}});
    return list;
}

Json map_json(const LayingMap& map) {
    Json sheets = Json::array();
    for (const MapTile& tile : map.tiles)
        sheets.push_back({{"name", tile.name},
                          {"from_mm", {tile.panel_mm.low.x, tile.panel_mm.low.y}},
                          {"to_mm", {tile.panel_mm.high.x, tile.panel_mm.high.y}}});
    return {{"scale", map.scale},
            {"paper", map.paper.name},
            {"paper_mm", {map.paper.size_mm.x, map.paper.size_mm.y}},
            {"pages", map.pages.size()},
            {"sheets", sheets},
            {"numbered", map.numbered},
            {"too_small_for_a_number", map.too_small}};
}

Json faults_json(const Layout& layout, const Laying& laying, const LayingFaults& faults) {
    Json counts, list = Json::array();
    for (const FaultWord& word : fault_words()) counts[std::string(word.key)] = faults.of(word.kind);
    for (const Fault& fault : faults.all) {
        const FaultWord& word = fault_words()[static_cast<std::size_t>(fault.kind)];
        const bool measured = !word.unit.empty();
        list.push_back({{"kind", word.key},
                        {"at_mm", {fault.at_mm.x, fault.at_mm.y}},
                        {"field", layout.fields[fault.field].name},
                        {"piece", fault.piece ? Json(laying.pieces[*fault.piece].number) : Json()},
                        {"found", measured ? Json(fault.value) : Json()},
                        {"limit", measured ? Json(fault.limit) : Json()}});
    }
    return {{"row_ends_per_100_pieces", faults.row_ends_per_100()},
            {"wide_joint_mm2", faults.wide_joint_mm2},
            {"tightest_wedge_deg", faults.tightest_wedge_deg},
            {"count", counts},
            {"list", list}};
}

}  // namespace

std::string laying_json(const Layout& layout, const Laying& laying, const LayingReport& report,
                        const LayingMap* map, const LayingFaults* faults,
                        const std::vector<std::string>& files) {
    const auto file_name = [](const std::string& path) {
        return std::filesystem::path(path).filename().string();
    };
    Json fields = Json::array();
    std::size_t pieces = 0;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const LaidField& field = report.fields[f];
        const auto& [r, g, b] = report.joint_colour[f];
        pieces += field.count;
        fields.push_back(
            {{"number", f + 1},
             {"name", layout.fields[f].name},
             {"pieces", field.count},
             {"ground_mm2", field.ground_mm2},
             {"area_mm2", field.area_mm2},
             {"joint_share", field.joint_share()},
             {"joint_srgb", fmt::format("#{:02x}{:02x}{:02x}", r, g, b)},
             {"mass_g", field.mass_g},
             {"materials", counts_json(layout.stock, report, field.materials, field.ground_mm2)}});
    }
    const Json body{
        {"note", "a drawing, not a photograph; mass of pieces and stones only"},
        {"panel", layout.panel.name},
        {"pieces_file", layout.pieces_file.empty() ? Json() : Json(file_name(layout.pieces_file))},
        {"seed", layout.panel.seed},
        {"size_mm", {layout.panel.width_mm, layout.panel.height_mm}},
        {"colours", "face-on in " + report.light + ", first-surface light excluded, middle tone"},
        {"pieces", pieces},
        {"stones", report.stone_count},
        {"panel_mm2", report.panel_mm2},
        {"piece_mm2", report.piece_mm2},
        {"stone_mm2", report.stone_mm2},
        {"joint_share", report.joint_share()},
        {"mass_g", report.mass_g},
        {"materials", counts_json(layout.stock, report, report.materials, report.panel_mm2)},
        {"fields", fields},
        {"map", map ? map_json(*map) : Json()},
        {"faults", faults ? faults_json(layout, laying, *faults) : Json()},
        {"files", files}};
    return json_text(json_head("laying", kLayingVersion,
                               {report.program, file_name(layout.sources.path), report.scene_hash}),
                     body);
}

}  // namespace rakelight
