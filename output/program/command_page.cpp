// `rakelight page`: one page of all the pictures in a folder, or of those for a client.
#include <fmt/format.h>

#include <memory>
#include <optional>

#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/parse_options.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/progress.h"
#include "output/system/safe_file.h"
#include "output/web/client.h"
#include "output/web/older.h"
#include "output/web/page.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

const std::vector<std::string> kFor{"workshop", "client"};

struct PageRequest {
    std::string folder;
    std::string layout;
    std::string reader = "workshop";
    std::vector<std::string> pictures;
    WebPageTask task;
    bool quiet = false;
};

// The layout that was named, or the one that the files name if it lies where the command is run.
std::optional<Layout> layout_of(const PageRequest& request, const RunFolder& run) {
    if (!request.layout.empty()) return read_layout(request.layout);
    std::error_code error;
    if (run.layout_file.empty() || !fs::is_regular_file(run.layout_file, error)) return {};
    try {
        return read_layout(run.layout_file);
    } catch (const LayoutError&) {
        return {};  // another file of that name, or one that is being worked on
    }
}

void page(PageRequest request) {
    check_words("--for", std::vector{request.reader}, kFor);
    RunFolder run = read_run_folder(request.folder);
    if (!request.pictures.empty()) check_words("--picture", request.pictures, picture_names(run));
    keep_pictures(run, request.pictures);
    if (const auto layout = layout_of(request, run)) mark_older(run, request.folder, *layout, kProgram);
    const bool client = request.reader == "client";
    const fs::path file = fs::path(request.folder) / (client ? "client.html" : "index.html");
    std::string html;
    {
        Progress progress("page", progress_kind(stderr, request.quiet));
        request.task.progress = [&](double share) { progress.show(share); };
        request.task.cancelled = interrupted;
        html = client ? client_page(run, request.folder, kProgram, request.task)
                      : web_page(run, request.folder, kProgram, request.task);
    }
    write_file(file, html);
    fmt::print("{}\n", file.string());
}

}  // namespace

void add_page(CLI::App& app) {
    auto* command =
        app.add_subcommand("page", "Put all pictures of a folder on one page, with lamps that can be dimmed");
    const auto r = std::make_shared<PageRequest>();
    command->add_option("FOLDER", r->folder, "A folder of finished files, such as renders/tide")->required();
    command
        ->add_option("--for", r->reader,
                     "workshop: all there is. client: pictures, boards and the proposal alone, in one file "
                     "under 5 MB that can be sent")
        ->type_name("WHOM")
        ->capture_default_str();
    command->add_option("--picture", r->pictures, "Only these pictures, by the names of their files")
        ->type_name("NAME,..")
        ->delimiter(',');
    command
        ->add_option(
            "--layout", r->layout,
            "Mark what is older than this layout file; usually the one that the files name, where it "
            "lies here")
        ->type_name("FILE");
    command
        ->add_option("--side", r->task.limits.mixing_side_px,
                     "Pictures whose lamps can be dimmed have at most this many pixels across and down")
        ->check(CLI::Range(64, 4096))
        ->capture_default_str();
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes index.html (for a client client.html) into the folder. It opens from disk, needs no\n"
        "network and holds its pictures itself. A picture that has its light file (NAME.exr) beside it gets "
        "a\n"
        "switch and a dimmer for each lamp group; a client's page has none, and no links to files.\n\n"
        "Examples:\n"
        "  rakelight page renders/tide\n"
        "  rakelight page renders/tide --for client --picture straight,portfolio-in-place");
    command->callback([r] { page(*r); });
}

}  // namespace rakelight
