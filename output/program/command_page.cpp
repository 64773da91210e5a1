// `rakelight page`: one page of all the pictures in a folder.
#include <fmt/format.h>

#include <memory>

#include "output/program/commands.h"
#include "output/system/program.h"
#include "output/web/page.h"

namespace rakelight {

namespace {

struct PageRequest {
    std::string folder;
    WebPageLimits limits;
};

}  // namespace

void add_page(CLI::App& app) {
    auto* command =
        app.add_subcommand("page", "Put all pictures of a folder on one page, with lamps that can be dimmed");
    const auto r = std::make_shared<PageRequest>();
    command->add_option("FOLDER", r->folder, "A folder of finished files, such as renders/tide")->required();
    command
        ->add_option("--side", r->limits.mixing_side_px,
                     "Pictures whose lamps can be dimmed have at most this many pixels across and down")
        ->check(CLI::Range(64, 4096))
        ->capture_default_str();
    command->footer(
        "Writes index.html into the folder. It opens from disk, needs no network and holds its pictures "
        "itself.\n"
        "A picture that has its film (NAME.exr) beside it gets a switch and a dimmer for each lamp group.\n\n"
        "Example:\n  rakelight page renders/tide");
    command->callback([r] { fmt::print("{}\n", write_web_page(r->folder, kProgram, r->limits).string()); });
}

}  // namespace rakelight
