#include "output/program/command_tree.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace rakelight {

namespace {

// What CLI11 calls the type of a value, and what its validators add: "INT:INT in [0 - 1024]",
// "TEXT:{bash,fish}".
void read_type(const std::string& type, OptionWords& words) {
    const std::size_t colon = type.find(':');
    words.value = type.substr(0, colon);
    if (words.value == "INT" || words.value == "UINT" || words.value == "FLOAT") words.value = "NUMBER";
    if (colon == std::string::npos) return;
    const std::string rule = type.substr(colon + 1);
    const auto between = [&](char open, char close) {
        const std::size_t from = rule.find(open);
        const std::size_t to = rule.rfind(close);
        return from < to && to != std::string::npos ? rule.substr(from + 1, to - from - 1) : std::string();
    };
    const std::string range = between('[', ']');
    if (const std::size_t dash = range.find(" - "); dash != std::string::npos)
        words.range = range.substr(0, dash) + " to " + range.substr(dash + 3);
    if (rule.starts_with('{')) words.choices = CLI::detail::split(between('{', '}'), ',');
}

std::vector<std::string> names_of(const std::set<CLI::Option*>& options) {
    std::vector<std::string> names;
    for (const CLI::Option* option : options) names.push_back(option->get_name());
    std::sort(names.begin(), names.end());
    return names;
}

OptionWords words_of(const CLI::Option& option) {
    OptionWords words;
    for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
    if (option.get_type_size() != 0) read_type(option.get_type_name(), words);
    if (option.get_positional()) words.value = option.get_name(true);
    words.meaning = option.get_description();
    words.usual = option.get_default_str();
    words.not_with = names_of(option.get_excludes());
    words.only_with = names_of(option.get_needs());
    words.required = option.get_required();
    words.many = option.get_expected_max() > 1;
    return words;
}

}  // namespace

std::string OptionWords::told() const {
    std::string text = meaning;
    if (!choices.empty()) text += fmt::format(": {}", fmt::join(choices, ", "));
    if (!range.empty()) text += fmt::format("; {}", range);
    if (!only_with.empty()) text += fmt::format("; only with {}", fmt::join(only_with, ", "));
    if (!not_with.empty()) text += fmt::format("; not with {}", fmt::join(not_with, ", "));
    if (required && !names.empty()) text += "; must be given";
    if (!usual.empty()) text += fmt::format(" (usual: {})", usual);
    return text;
}

CommandWords words_of(const CLI::App& command) {
    CommandWords words;
    if (command.get_parent()) words.name = command.get_name();
    words.meaning = command.get_description();
    words.footer = command.get_footer();
    for (const CLI::Option* option : command.get_options())
        if (!option->get_group().empty())
            (option->get_positional() ? words.arguments : words.options).push_back(words_of(*option));
    // What every command has comes last.
    std::stable_partition(words.options.begin(), words.options.end(), [&](const OptionWords& option) {
        return option.names.back() != "--help" && option.names.back() != "--version";
    });
    return words;
}

std::vector<CommandWords> commands_of(const CLI::App& program) {
    std::vector<CommandWords> commands;
    for (const CLI::App* command : program.get_subcommands({}))
        if (!command->get_group().empty()) commands.push_back(words_of(*command));
    return commands;
}

}  // namespace rakelight
