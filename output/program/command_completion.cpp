// `rakelight completion`: a script by which a shell completes commands, options and files.
#include <fmt/format.h>

#include <memory>

#include "output/program/commands.h"
#include "output/program/completion.h"

namespace rakelight {

void add_completion(CLI::App& app) {
    auto* command =
        app.add_subcommand("completion", "Print what makes a shell complete commands and options");
    const auto shell = std::make_shared<std::string>();
    command->add_option("SHELL", *shell, "The shell")->required()->check(CLI::IsMember(kShells));
    command->footer(
        "A package installs it for all three shells; by hand it is read at the start of a shell.\n\n"
        "Examples:\n"
        "  source <(rakelight completion bash)          in ~/.bashrc\n"
        "  source <(rakelight completion zsh)           in ~/.zshrc, after compinit\n"
        "  rakelight completion fish | source           in ~/.config/fish/config.fish");
    command->callback(
        [shell, &app] { fmt::print("{}", completion(*shell, words_of(app), commands_of(app))); });
}

}  // namespace rakelight
