#include "output/program/command_options.h"

#include <memory>

#include "output/system/thread_limit.h"

namespace rakelight {

void add_layout_file(CLI::App& command, std::string& file) {
    command.add_option("FILE", file, "The layout file")->required();
}

void add_into(CLI::App& command, std::string& into) {
    command
        .add_option("--into", into,
                    "Folder for the finished files; a folder named after the layout is made in it")
        ->type_name("DIR")
        ->capture_default_str();
}

void add_pieces(CLI::App& command, std::string& pieces) {
    command.add_option("--pieces", pieces, "Take the pieces of this table (CSV or JSON) instead of laying")
        ->type_name("FILE");
}

void add_threads(CLI::App& command, int& threads) {
    command
        .add_option("--threads", threads, "Processor threads to use; 0 = all. Does not change the pictures")
        ->check(CLI::Range(0, 1024))
        ->capture_default_str();
}

void limit_threads(CLI::App& command) {
    const auto threads = std::make_shared<int>(0);
    add_threads(command, *threads);
    const auto limit = std::make_shared<std::optional<ThreadLimit>>();
    command.parse_complete_callback([threads, limit] { limit->emplace(*threads); });
}

void add_json(CLI::App& command, bool& json, const std::string& file) {
    command.add_flag("--json", json, "Print JSON instead, the same as in " + file);
}

std::vector<std::string> command_names(const CLI::App& program) {
    std::vector<std::string> names;
    for (const CLI::App* command :
         program.get_subcommands([](const CLI::App* each) { return !each->get_group().empty(); }))
        names.push_back(command->get_name());
    return names;
}

}  // namespace rakelight
