#include "output/program/mistyped.h"

#include <fmt/format.h>

#include "output/program/command_options.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

std::optional<std::string> mistyped(const CLI::App& program, const std::vector<std::string>& words) {
    const CLI::App* command = &program;
    for (const std::string& word : words) {
        if (word == "--") return std::nullopt;
        if (word.starts_with("--")) {
            const std::string name = word.substr(0, word.find('='));
            if (command->get_option_no_throw(name)) continue;
            std::vector<std::string> known;
            for (const CLI::Option* option : command->get_options())
                for (const std::string& each : option->get_lnames()) known.push_back("--" + each);
            const std::string of = command == &program ? "rakelight" : "rakelight " + command->get_name();
            return fmt::format("{} has no option {}{}", of, name, did_you_mean(name, known));
        }
        if (command != &program || word.starts_with('-')) continue;
        const auto found =
            program.get_subcommands([&](const CLI::App* each) { return each->get_name() == word; });
        if (!found.empty())
            command = found.front();
        else
            return fmt::format("rakelight has no command {}{}", word,
                               did_you_mean(word, command_names(program)));
    }
    return std::nullopt;
}

}  // namespace rakelight
