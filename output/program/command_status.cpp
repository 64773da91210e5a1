// `rakelight status`: what of the work handed to many machines is done.
#include <fmt/format.h>

#include <memory>

#include "output/farm/status.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"

namespace rakelight {

void add_status(CLI::App& app) {
    auto* command =
        app.add_subcommand("status", "Say what of the work of `batch --on` is done, running, failed, left");
    const auto folder = std::make_shared<std::string>();
    const auto json = std::make_shared<bool>(false);
    command->add_option("FOLDER", *folder, "Where the tasks are")->required();
    command->add_flag("--json", *json, "Print JSON instead");
    command->footer(
        "A task that gave no sign of life for a minute counts as left: a queue begins\n"
        "it again, or `batch --on` does when it is run once more.\n\n"
        "Example:\n  rakelight status renders/night.tasks");
    command->callback([folder, json] {
        const FarmStatus status = farm_status(*folder);
        fmt::print("{}", *json ? status_json(status) : status_table(status));
    });
}

}  // namespace rakelight
