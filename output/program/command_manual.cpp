// `rakelight manual`: what the build makes man pages of. Hidden: nobody else needs it.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "output/program/commands.h"
#include "output/program/manual_page.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

// Without a name the names of all pages, one on a line.
std::string manual(const CLI::App& app, const std::string& name) {
    const std::vector<CommandWords> commands = commands_of(app);
    if (name == "rakelight") return manual_of_program(words_of(app), commands);
    std::string names;
    for (const CommandWords& command : commands) {
        if (command.name == name) return manual_page(command);
        names += command.name + "\n";
    }
    if (!name.empty()) throw RequestError(fmt::format("there is no command {}", name));
    return names;
}

}  // namespace

void add_manual(CLI::App& app) {
    auto* command = app.add_subcommand("manual", "Print the man page of a command as Markdown")->group("");
    const auto name = std::make_shared<std::string>();
    command->add_option("NAME", *name, "A command, or rakelight; without it the names of all");
    command->callback([name, &app] { fmt::print("{}", manual(app, *name)); });
}

}  // namespace rakelight
