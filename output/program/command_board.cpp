// `rakelight board`: the same piece of the work in several choices of grout, bed, stock or light, side by
// side.
#include <fmt/format.h>

#include <memory>

#include "output/board/json.h"
#include "output/board/section.h"
#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/print/picture_writer.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/read_and_warn.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/progress.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/tree_override.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct BoardRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string into = kFinishedFolder;
    int most_samples = 0;
    int pixels = 0;
    bool quiet = false;
    bool json = false;
};

BoardPlan plan_of(const BoardRequest& request, const Layout& layout) {
    if (!member_of(layout.sources.tree->root, "board"))
        throw LayoutError({request.file, 0, 0}, "board", "found nothing, expected what the board is to show");
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    if (request.most_samples > 0) plan.most_samples = request.most_samples;
    if (request.pixels > 0) plan.width_px = request.pixels;
    return plan;
}

std::string summary(const BoardCell& cell) {
    const CellNumbers& n = cell.numbers;
    return fmt::format(
        "{}{}: joint L* {:.1f}, pieces L* {:.1f}, contrast {:.1f} ΔE, joints merge into the pieces beyond "
        "{:.1f} m",
        n.rank ? fmt::format("{}. ", *n.rank) : "", cell.label, n.joint ? n.joint->l : 0, n.piece.l,
        n.contrast, n.net_fades_m);
}

void board(const BoardRequest& request) {
    const Layout layout = read_and_warn(request.file, "", request.changes);
    const BoardPlan plan = plan_of(request, layout);
    const fs::path folder = finished_folder(request.into, request.file, request.changes);
    make_writable_folder(folder);

    Board made;
    {
        Progress progress("board", progress_kind(stderr, request.quiet));
        BoardOptions options;
        options.progress = [&](double share) { progress.show(share); };
        options.cancelled = interrupted;
        made = render_board(layout, plan, options);
    }
    const BoardTitle title =
        title_of(made, plan, fs::path(layout.sources.path).filename().string(), kProgram);
    const BoardSheet sheet = make_board_sheet(made, plan, title);
    BoardFiles files{"board.png", "board-figures.png", {}, 0};
    Picture as_rendered;
    as_rendered.name = "board";
    as_rendered.width_px = plan.width_px;
    as_rendered.height_px = plan.height_px();
    as_rendered.most_samples = plan.most_samples;
    as_rendered.error = plan.error;
    as_rendered.ev = plan.ev;
    files.scene_hash = scene_hash(source_hash(layout), kProgram, as_rendered);
    for (const BoardCell& cell : made.cells) {
        stop_if_interrupted();
        files.cells.push_back(fmt::format("board-{}-{}.png", cell.row + 1, cell.column + 1));
        write_png(folder / files.cells.back(), cell.print,
                  {{"Title", title.title + ", " + cell.label},
                   {"Description", "rendering, not a photograph"},
                   {"Software", kProgram},
                   {"Scene hash", hash_digits(files.scene_hash)}});
    }
    for (const auto& [file, print] :
         {std::pair{files.sheet, print_board(sheet, made)}, std::pair{files.figures, print_figures(sheet)}})
        write_png(folder / file, print,
                  {{"Title", title.title},
                   {"Software", kProgram},
                   {"Description", "sample board: a rendering, not a photograph"},
                   {"Scene hash", hash_digits(files.scene_hash)}});
    const std::string json = sealed_json(board_json(made, plan, sheet, title, files), folder);
    write_file(folder / "board.json", json);
    if (request.json) {
        fmt::print("{}", json);
        return;
    }
    for (const BoardCell& cell : made.cells) fmt::print("{}\n", summary(cell));
    for (const std::string& file : {files.sheet, files.figures, std::string("board.json")})
        fmt::print("{}\n", (folder / file).string());
}

}  // namespace

void add_board(CLI::App& app) {
    auto* command =
        app.add_subcommand("board", "Show one piece of the work in several grouts, beds, stocks or lights");
    const auto r = std::make_shared<BoardRequest>();
    command->add_option("FILE", r->file, "The layout file, with a section `board`")->required();
    add_set(*command, r->changes);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "board.json");
    command
        ->add_option("--most-samples", r->most_samples,
                     "At most this many samples a pixel, instead of the board's")
        ->check(CLI::Range(1, 1 << 20));
    command->add_option("--pixels", r->pixels, "Width of a cell, instead of the board's")
        ->check(CLI::Range(64, 2000));
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes board.png (the pictures), board-figures.png (what they say in figures), "
        "board-ROW-COLUMN.png\n"
        "(each cell bare) and board.json (numbers).\n\n"
        "In the layout:\n"
        "  board:\n"
        "    test piece: {field: sea, size: 90}\n"
        "    columns: {grout: [white, sand, mid-grey, charcoal, none]}\n"
        "    aim: show flow\n\n"
        "Example:\n"
        "  rakelight board scenes/grout-sampler.yaml");
    command->callback([r] { board(*r); });
}

}  // namespace rakelight
