#include "output/board/json.h"

#include <array>
#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "output/paper/ink.h"
#include "output/stock/swatch_sheet.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kBoardVersion = 3;

Json of(const Lab& lab) {
    return {lab.l, lab.a, lab.b};
}

Json of(const Xyz& xyz) {
    return {xyz.x, xyz.y, xyz.z};
}

Json of(const PageBox& box, double px_per_mm) {
    const PixelBox p = pixels_of(box, px_per_mm);
    return {p.at_px.x, p.at_px.y, p.size_px.x, p.size_px.y};
}

Json of(const std::vector<BoardChoice>& choices) {
    Json list = Json::array();
    for (const BoardChoice& c : choices) list.push_back({{"label", c.label}});
    return list;
}

Json of(const CellNumbers& n) {
    Json seen = Json::array();
    for (const SeenAt& s : n.seen_at)
        seen.push_back({{"distance_m", s.distance_m},
                        {"mean_lab", of(n.mean)},
                        {"pieces_lab", of(s.pieces)},
                        {"joints_lab", of(s.joints)},
                        {"ciede2000", s.ciede2000}});
    return {{"joint_lab", n.joint ? of(*n.joint) : Json()},
            {"piece_lab", of(n.piece)},
            {"glass_lab", n.glass ? of(*n.glass) : Json()},
            {"contrast", {{"delta_l", n.delta_l}, {"ciede2000", n.contrast}}},
            {"joint_share", n.joint_share},
            {"joint_mm", n.joint_mm},
            {"resolves_to_m", n.resolves_to_m},
            {"reads_as_line_to_m", n.line_to_m},
            {"net_fades_m", n.net_fades_m},
            {"shift",
             {{"delta_l", n.shift_l},
              {"delta_c", n.shift_c},
              {"delta_saturation", n.shift_saturation},
              {"ciede2000", n.shift_ciede2000}}},
            {"mean_lab", of(n.mean)},
            {"mean_xyz_cd_per_m2", of(n.mean_xyz)},
            {"seen_at", seen}};
}

Json cells_json(const Board& board, const BoardSheet& sheet, const BoardFiles& files) {
    Json cells = Json::array();
    for (std::size_t i = 0; i < board.cells.size(); ++i) {
        const BoardCell& c = board.cells[i];
        Json patches = Json::array();
        for (const BoardPatch& p : sheet.patches)
            if (p.cell == i)
                patches.push_back({{"what", p.what},
                                   {"lab", of(p.lab)},
                                   {"in_srgb", p.in_srgb},
                                   {"box_px", of(p.box, kBoard_px_per_mm)}});
        cells.push_back({{"file", files.cells[i]},
                         {"row", c.row},
                         {"column", c.column},
                         {"label", c.label},
                         {"grout", c.grout},
                         {"filling", c.filling},
                         {"joint_mm", c.joint_mm},
                         {"recess_mm", c.recess_mm},
                         {"width_px", c.print.width},
                         {"height_px", c.print.height},
                         {"box_px", of(sheet.cells[i], sheet.px_per_mm)},
                         {"lamps", c.lamps},
                         {"illuminance_lx", c.illuminance_lx},
                         {"exposure_ev100", c.ev100},
                         {"distance_m", c.distance_m ? Json(*c.distance_m) : Json()},
                         {"numbers", of(c.numbers)},
                         {"patches", patches},
                         {"rank", c.numbers.rank ? Json(*c.numbers.rank) : Json()}});
    }
    return cells;
}

}  // namespace

std::string board_json(const Board& board, const BoardPlan& plan, const BoardSheet& sheet,
                       const BoardTitle& title, const BoardFiles& files) {
    constexpr std::array kParts{"test piece", "part", "around"};
    constexpr std::array kAims{"", "blend", "show flow", "deepen colour"};
    std::vector<std::string> names = files.cells;
    names.insert(names.begin(), {files.sheet, files.figures});
    Json large = Json::array();
    for (const LargeCell& each : sheet.large)
        large.push_back({{"cell", each.cell}, {"box_px", of(each.box, sheet.px_per_mm)}});
    const Json body{
        {"note", "rendering, not a photograph; cured colour"},
        {"title", title.title},
        {"sheet", files.sheet},
        {"px_per_mm", sheet.px_per_mm},
        {"figures_sheet", files.figures},
        {"figures_px_per_mm", kBoard_px_per_mm},
        {"surround_lightness", kSurroundLightness},
        {"part",
         {{"kind", kParts[static_cast<std::size_t>(plan.part)]},
          {"field", plan.field.empty() ? Json() : Json(plan.field)},
          {"at_mm", {plan.at_mm.x, plan.at_mm.y}},
          {"size_mm", {plan.size_mm.x, plan.size_mm.y}}}},
        {"viewing_distance_mm", plan.eye_mm},
        {"aim", plan.aim == BoardAim::none ? Json() : Json(kAims[static_cast<std::size_t>(plan.aim)])},
        {"exposure_ev100", board.ev100},
        {"white_xyz", of(board.white)},
        {"observer", "CIE 1931"},
        {"rows", of(plan.rows)},
        {"columns", of(plan.columns)},
        {"reference", {{"row", plan.reference_row}, {"column", plan.reference_column}}},
        {"shared", {{"layings", board.work.layings}, {"renderings", board.work.renderings}}},
        {"large", large},
        {"cells", cells_json(board, sheet, files)},
        {"files", names}};
    return json_text(json_head("board", kBoardVersion, {title.program, title.layout_file, files.scene_hash}),
                     body);
}

}  // namespace rakelight
