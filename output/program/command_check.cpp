// `rakelight check`: reads and lays a layout without rendering it, and says what is in it.
#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "output/board/layouts.h"
#include "output/film/json_head.h"
#include "output/glare/measures/panel_light.h"
#include "output/glare/section.h"
#include "output/in_photograph/for_preview.h"
#include "output/in_photograph/section.h"
#include "output/portfolio/section.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/read_and_warn.h"
#include "output/scan/prepare.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "output/take_off/reckoning/section.h"
#include "scene/faults/across_gaps.h"
#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"

namespace rakelight {

namespace {

struct CheckRequest {
    std::string file;
    std::string pieces;
    std::vector<std::string> changes;
    std::string into = kFinishedFolder;
    bool json = false;
};

std::vector<std::string> warnings_of(const Layout& layout, const Laying& laying,
                                     const std::vector<TakenPhotograph>& photographs) {
    std::vector<std::string> warnings = layout.warnings;
    for (const TakenPhotograph& photograph : photographs)
        for (const std::string& warning : photograph.warnings)
            warnings.push_back(photograph.said.name + ": " + warning);
    for (const auto& more : {panels_left_dark(layout), laying.warnings})
        warnings.insert(warnings.end(), more.begin(), more.end());
    return warnings;
}

nlohmann::ordered_json carried_json(const CarriedOn& carried) {
    return {{"lines", carried.lines},
            {"meet", carried.meet},
            {"worst_mm", carried.worst_mm},
            {"worst_at_mm", {carried.worst_at.x, carried.worst_at.y}},
            {"worst_in", carried.worst_in}};
}

nlohmann::ordered_json gaps_json(const Layout& layout, const Laying& laying) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const AcrossGap& gap : across_gaps(layout, laying))
        list.push_back({{"left", gap.left},
                        {"right", gap.right},
                        {"from_mm", gap.from_mm},
                        {"to_mm", gap.to_mm},
                        {"rows", carried_json(gap.rows)},
                        {"outlines", carried_json(gap.outlines)},
                        {"pieces_at_edges", gap.pieces},
                        {"slender_pieces", gap.slender},
                        {"widest_joint_mm", gap.widest_joint_mm},
                        {"widest_joint_at_mm", {gap.widest_at.x, gap.widest_at.y}}});
    return list;
}

std::string check_json(const Layout& layout, const Laying& laying, const std::vector<std::size_t>& count,
                       const std::vector<TakenPhotograph>& photographs) {
    nlohmann::ordered_json fields = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < count.size(); ++i)
        fields.push_back({{"name", layout.fields[i].name}, {"pieces", count[i]}});
    nlohmann::ordered_json body{{"pieces", laying.pieces.size()},
                                {"stones", laying.stones.size()},
                                {"fields", fields},
                                {"notes", laying.notes},
                                {"warnings", warnings_of(layout, laying, photographs)}};
    if (layout.panel.divided) body["across_gaps"] = gaps_json(layout, laying);
    return json_text(json_head("check", 1, made_from(layout, kProgram)), body);
}

/// Of a drawing on paper: what was found in it.
void write_scan_picture(const CheckRequest& request, const Layout& layout) {
    const auto picture = picture_of_scan(layout);
    if (!picture) return;
    FinishedFiles finished(finished_folder(request.into, request.file, request.changes), !request.json);
    finished.picture("scan.png", *picture,
                     {{"Software", kProgram}, {"Description", "lines found in a scan"}});
}

void check(const CheckRequest& request) {
    const std::string& file = request.file;
    find_drawing_on_paper(file, request.changes);
    const Layout layout = read_layout(file, request.pieces, request.changes);
    check_board(layout);
    read_workshop(layout);  // what take-off would say of its sections
    read_portfolio(layout);
    read_glare_section(layout);
    const std::vector<TakenPhotograph> photographs = read_wall_photographs(layout);
    Laying laying = lay(layout);
    stop_if_interrupted();
    write_scan_picture(request, layout);
    if (const std::string faults = faults_in_words(layout, laying, find_faults(layout, laying));
        !faults.empty())
        laying.notes.push_back("faults of the hand: " + faults);
    std::vector<std::size_t> count(layout.fields.size(), 0);
    for (const Piece& piece : laying.pieces) ++count[piece.field];
    if (request.json) {
        fmt::print("{}", check_json(layout, laying, count, photographs));
        return;
    }
    fmt::print("{}", summarise(layout));
    fmt::print("Laid: {} pieces, {} stones\n", laying.pieces.size(), laying.stones.size());
    for (std::size_t i = 0; i < count.size(); ++i)
        fmt::print("  {}: {} pieces\n", layout.fields[i].name, count[i]);
    for (const AcrossGap& gap : across_gaps(layout, laying))
        laying.notes.push_back(in_words(gap, layout.units));
    for (const std::string& note : laying.notes) fmt::print("Note: {}\n", note);
    for (const TakenPhotograph& photograph : photographs) fmt::print("{}\n", camera_in_words(photograph));
    for (const std::string& warning : warnings_of(layout, laying, photographs))
        fmt::print("Warning: {}\n", warning);
    fmt::print("{}: no problems found.\n", file);
}

}  // namespace

void add_check(CLI::App& app) {
    auto* command =
        app.add_subcommand("check", "Read a layout, lay it, and say what is in it or what is wrong");
    const auto r = std::make_shared<CheckRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    limit_threads(*command);
    command->add_flag("--json", r->json, "Print JSON instead");
    command->footer(
        "A layout may be made from others:\n"
        "  like: tide.yaml            that layout, changed by what stands here\n"
        "  stock from: my-glass.yaml  pigments, tints and stock shared by layouts (or a list)\n"
        "Sections are changed key by key; fields, lamps, pictures and other lists of\n"
        "things with names item by item, by name; any other list, such as stones, is\n"
        "taken whole. A key without a value removes that of the base.\n\n"
        "Where the layout has a drawing on paper (drawing: {scan: page.jpg}), its\n"
        "lines are found, kept beside it as page-found.svg, and shown in scan.png.\n\n"
        "Examples:\n"
        "  rakelight check tide.yaml\n"
        "  rakelight check tide.yaml --set fields.sea.grout=black");
    command->callback([r] { check(*r); });
}

}  // namespace rakelight
