// `rakelight join`: puts pictures together that were rendered in parts.
#include <fmt/format.h>

#include <memory>

#include "output/film/film_join.h"
#include "output/preview/deliver.h"
#include "output/program/commands.h"
#include "output/system/file_names.h"
#include "output/system/interrupt.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

struct JoinRequest {
    std::vector<std::string> parts;
    std::string into;
    bool no_glow = false;
    bool as_traced = false;
};

void join(const JoinRequest& request) {
    const std::filesystem::path folder(request.into);
    make_writable_folder(folder);
    const FilmSource whole = join_files(request.parts);
    stop_if_interrupted();
    check_picture_names(std::vector{whole.about.notes.picture});
    for (const auto& path : deliver(whole, folder, {!request.no_glow, request.as_traced}))
        fmt::print("{}\n", path.string());
}

}  // namespace

void add_join(CLI::App& app) {
    auto* command =
        app.add_subcommand("join", "Put a picture together from parts rendered with --part or --rows");
    const auto r = std::make_shared<JoinRequest>();
    command->add_option("PART", r->parts, "All parts of one picture, in any order")->required();
    command->add_option("--into", r->into, "Folder for the finished files")->type_name("DIR")->required();
    command->add_flag("--no-glow", r->no_glow,
                      "Leave sparkles as they are, without the glow that the eye sees round them");
    command->add_flag("--as-traced", r->as_traced, kAsTracedHelp);
    command->footer(
        "The result is the same to the bit as a render on one machine.\n\n"
        "Example:\n  rakelight join straight.part-?-of-2.exr --into renders/tide");
    command->callback([r] { join(*r); });
}

}  // namespace rakelight
