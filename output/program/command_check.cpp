// `rakelight check`: reads and lays a layout without rendering it, and says what is in it.
#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "output/board/layouts.h"
#include "output/glare/measures/panel_light.h"
#include "output/glare/section.h"
#include "output/portfolio/section.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/take_off/reckoning/section.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"

namespace rakelight {

namespace {

struct CheckRequest {
    std::string file;
    std::string pieces;
    bool json = false;
};

std::string check_json(const Layout& layout, const Laying& laying, const std::vector<std::size_t>& count) {
    nlohmann::ordered_json j;
    j["format"] = "rakelight check";
    j["version"] = 1;
    j["program"] = kProgram;
    j["layout_file"] = layout.sources.path;
    j["pieces"] = laying.pieces.size();
    j["stones"] = laying.stones.size();
    j["fields"] = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < count.size(); ++i)
        j["fields"].push_back({{"name", layout.fields[i].name}, {"pieces", count[i]}});
    j["notes"] = laying.notes;
    j["warnings"] = layout.warnings;
    for (const std::string& warning : laying.warnings) j["warnings"].push_back(warning);
    return j.dump(2) + "\n";
}

void check(const CheckRequest& request) {
    const std::string& file = request.file;
    const Layout layout = read_layout(file, request.pieces);
    check_board(file, layout);
    read_workshop(file, layout);  // what takeoff would say of its sections
    read_portfolio(layout);
    read_glare_section(layout, file);
    const Laying laying = lay(layout);
    stop_if_interrupted();
    std::vector<std::size_t> count(layout.fields.size(), 0);
    for (const Piece& piece : laying.pieces) ++count[piece.field];
    if (request.json) {
        fmt::print("{}", check_json(layout, laying, count));
        return;
    }
    fmt::print("{}", summarise(layout));
    fmt::print("Laid: {} pieces, {} stones\n", laying.pieces.size(), laying.stones.size());
    for (std::size_t i = 0; i < count.size(); ++i)
        fmt::print("  {}: {} pieces\n", layout.fields[i].name, count[i]);
    for (const std::string& note : laying.notes) fmt::print("Note: {}\n", note);
    for (const std::string& warning : layout.warnings) fmt::print("Warning: {}\n", warning);
    for (const std::string& warning : panels_left_dark(layout)) fmt::print("Warning: {}\n", warning);
    for (const std::string& warning : laying.warnings) fmt::print("Warning: {}\n", warning);
    fmt::print("{}: no problems found.\n", file);
}

}  // namespace

void add_check(CLI::App& app) {
    auto* command =
        app.add_subcommand("check", "Read a layout, lay it, and say what is in it or what is wrong");
    const auto r = std::make_shared<CheckRequest>();
    add_layout_file(*command, r->file);
    add_pieces(*command, r->pieces);
    limit_threads(*command);
    command->add_flag("--json", r->json, "Print JSON instead");
    command->footer("Example:\n  rakelight check tide.yaml");
    command->callback([r] { check(*r); });
}

}  // namespace rakelight
