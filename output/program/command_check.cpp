// `rakelight check`: reads and lays a layout without rendering it, and says what is in it.
#include <fmt/format.h>

#include <memory>

#include "output/board/layouts.h"
#include "output/glare/section.h"
#include "output/portfolio/section.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/system/interrupt.h"
#include "output/take_off/reckoning/section.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"

namespace rakelight {

namespace {

void check(const std::string& file, const std::string& pieces, const std::vector<std::string>& changes) {
    const Layout layout = read_layout(file, pieces, changes);
    check_board(layout);
    read_workshop(layout);  // what takeoff would say of its sections
    read_portfolio(layout);
    read_glare_section(layout);
    const Laying laying = lay(layout);
    stop_if_interrupted();
    fmt::print("{}", summarise(layout));
    std::vector<std::size_t> count(layout.fields.size(), 0);
    for (const Piece& piece : laying.pieces) ++count[piece.field];
    fmt::print("Laid: {} pieces, {} stones\n", laying.pieces.size(), laying.stones.size());
    for (std::size_t i = 0; i < count.size(); ++i)
        fmt::print("  {}: {} pieces\n", layout.fields[i].name, count[i]);
    for (const std::string& note : laying.notes) fmt::print("Note: {}\n", note);
    for (const std::string& warning : layout.warnings) fmt::print("Warning: {}\n", warning);
    for (const std::string& warning : laying.warnings) fmt::print("Warning: {}\n", warning);
    fmt::print("{} is in order.\n", file);
}

}  // namespace

void add_check(CLI::App& app) {
    auto* command =
        app.add_subcommand("check", "Read a layout, lay it, and say what is in it or what is wrong");
    const auto file = std::make_shared<std::string>();
    add_layout_file(*command, *file);
    const auto changes = std::make_shared<std::vector<std::string>>();
    add_set(*command, *changes);
    const auto pieces = std::make_shared<std::string>();
    add_pieces(*command, *pieces);
    command->footer(
        "A layout may be made from others:\n"
        "  like: tide.yaml            that layout, changed by what stands here\n"
        "  stock from: my-glass.yaml  pigments, tints and stock shared by layouts (or a list)\n"
        "Sections are changed key by key; fields, lamps, pictures and other lists of\n"
        "things with names item by item, by name; any other list, such as stones, is\n"
        "taken whole. A key without a value removes that of the base.\n\n"
        "Examples:\n"
        "  rakelight check tide.yaml\n"
        "  rakelight check tide.yaml --set fields.sea.grout=black");
    command->callback([file, pieces, changes] { check(*file, *pieces, *changes); });
}

}  // namespace rakelight
