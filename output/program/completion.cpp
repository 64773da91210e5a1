#include "output/program/completion.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace rakelight {

namespace {

enum class Follows { nothing, words, files, folders, layouts };

// What to offer for a value.
Follows follows(const OptionWords& option) {
    if (!option.choices.empty()) return Follows::words;
    if (option.value == "DIR" || option.value == "FOLDER") return Follows::folders;
    if (option.names.empty() && option.value == "FILE") return Follows::layouts;
    if (option.value == "FILE" || option.value == "PART" || option.value == "LIST") return Follows::files;
    return Follows::nothing;
}

std::string with_escapes(std::string_view text, std::string_view letters, std::string_view before) {
    std::string escaped;
    for (const char c : text) {
        if (letters.find(c) != std::string_view::npos) escaped += before;
        escaped += c;
    }
    return escaped;
}

// What stands between single quotes in a POSIX shell.
std::string in_quotes(std::string_view text) {
    std::string quoted = "'";
    for (const char c : text)
        if (c == '\'')
            quoted += "'\\''";
        else
            quoted += c;
    return quoted + "'";
}

std::string bash_offer(const OptionWords& option) {
    switch (follows(option)) {
        case Follows::words:
            return fmt::format("compgen -W {} -- \"$word\"",
                               in_quotes(fmt::format("{}", fmt::join(option.choices, " "))));
        case Follows::folders:
            return "compgen -d -- \"$word\"";
        case Follows::layouts:
            return "compgen -f -X '!*.y?(a)ml' -- \"$word\"; compgen -d -- \"$word\"";
        case Follows::files:
            return "compgen -f -- \"$word\"";
        case Follows::nothing:
            return ":";
    }
    return ":";
}

std::string all_names(const CommandWords& command) {
    std::vector<std::string> names;
    for (const OptionWords& option : command.options)
        names.insert(names.end(), option.names.begin(), option.names.end());
    return fmt::format("{}", fmt::join(names, " "));
}

std::string bash(const CommandWords& program, const std::vector<CommandWords>& commands) {
    std::vector<std::string> names;
    std::string values, options, arguments;
    for (const CommandWords& command : commands) {
        names.push_back(command.name);
        options += fmt::format("        {}) options='{}' ;;\n", command.name, all_names(command));
        for (const OptionWords& option : command.options)
            if (!option.value.empty())
                for (const std::string& name : option.names)
                    values += fmt::format("        '{} {}') offer=$({}) ;;\n", command.name, name,
                                          bash_offer(option));
        if (!command.arguments.empty())
            arguments += fmt::format("        {}) offer=$({}) ;;\n", command.name,
                                     bash_offer(command.arguments.front()));
    }
    return fmt::format(
        R"(# Completion of rakelight for bash, made by `rakelight completion bash`.
_rakelight() {{
    local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} command= options= offer= each
    local extended; extended=$(shopt -p extglob); shopt -s extglob
    for each in "${{COMP_WORDS[@]:1:COMP_CWORD-1}}"; do
        [[ $each == -* ]] || {{ command=$each; break; }}
    done
    case "$command" in
        '') options='{}'; offer=$(compgen -W '{}' -- "$word") ;;
{}    esac
    case "$command $before" in
{}        *) if [[ $word == -* ]]; then
               offer=$(compgen -W "$options" -- "$word")
           else
               case "$command" in
{}               esac
           fi ;;
    esac
    eval "$extended"
    COMPREPLY=()
    while IFS= read -r each; do [[ -n $each ]] && COMPREPLY+=("$each"); done <<<"$offer"
}}
complete -o filenames -F _rakelight rakelight
)",
        all_names(program), fmt::join(names, " "), options, values, arguments);
}

std::string zsh_action(const OptionWords& option) {
    switch (follows(option)) {
        case Follows::words:
            return fmt::format("({})", fmt::join(option.choices, " "));
        case Follows::folders:
            return "_files -/";
        case Follows::layouts:
            return "_files -g \"*.(yaml|yml)\"";
        case Follows::files:
            return "_files";
        case Follows::nothing:
            return " ";
    }
    return " ";
}

// A row for zsh's `_arguments`.
std::string zsh_row(const OptionWords& option) {
    const std::string value =
        option.value.empty() ? "" : fmt::format(":{}:{}", option.value, zsh_action(option));
    std::string rows;
    if (option.names.empty())
        return fmt::format(" \\\n                {}", in_quotes((option.many ? "*" : "") + value));
    for (const std::string& name : option.names)
        rows += fmt::format(" \\\n                {}",
                            in_quotes(fmt::format("{}{}[{}]{}", option.many ? "*" : "", name,
                                                  with_escapes(option.meaning, "[]:\\", "\\"), value)));
    return rows;
}

std::string zsh(const CommandWords& program, const std::vector<CommandWords>& commands) {
    std::string names, cases, own;
    for (const OptionWords& option : program.options) own += zsh_row(option);
    for (const CommandWords& command : commands) {
        names += fmt::format("        {}\n",
                             in_quotes(command.name + ":" + with_escapes(command.meaning, ":\\", "\\")));
        cases += fmt::format("        {})\n            _arguments", command.name);
        for (const std::vector<OptionWords>* rows : {&command.options, &command.arguments})
            for (const OptionWords& option : *rows) cases += zsh_row(option);
        cases += "\n            ;;\n";
    }
    return fmt::format(R"(#compdef rakelight
# Completion of rakelight for zsh, made by `rakelight completion zsh`.
_rakelight() {{
    local -a commands
    local context state state_descr line
    typeset -A opt_args
    commands=(
{}    )
    _arguments -C{} \
        '1:command:->command' '*::argument:->argument' && return
    case $state in
        command) _describe command commands; return ;;
    esac
    case $line[1] in
{}    esac
}}
if [ "$funcstack[1]" = _rakelight ]; then _rakelight "$@"; else compdef _rakelight rakelight; fi
)",
                       names, own, cases);
}

std::string fish_offer(const OptionWords& option) {
    switch (follows(option)) {
        case Follows::words:
            return fmt::format(" -x -a '{}'", fmt::join(option.choices, " "));
        case Follows::folders:
            return " -x -a '(__fish_complete_directories)'";
        case Follows::layouts:
            return " -k -x -a '(__fish_complete_suffix .yaml .yml)'";
        case Follows::files:
            return " -r -F";
        case Follows::nothing:
            return option.value.empty() ? "" : " -x";
    }
    return "";
}

std::string fish_rows(const std::string& when, const std::vector<OptionWords>& options) {
    std::string text;
    for (const OptionWords& option : options) {
        text += fmt::format("complete -c rakelight -n '{}'", when);
        for (const std::string& name : option.names)
            text += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
        text += fish_offer(option);
        if (!option.names.empty()) text += fmt::format(" -d '{}'", with_escapes(option.meaning, "'\\", "\\"));
        text += "\n";
    }
    return text;
}

std::string fish(const CommandWords& program, const std::vector<CommandWords>& commands) {
    std::string text =
        "# Completion of rakelight for fish, made by `rakelight completion fish`.\n"
        "complete -c rakelight -f\n" +
        fish_rows("__fish_use_subcommand", program.options);
    for (const CommandWords& command : commands) {
        text += fmt::format("complete -c rakelight -n __fish_use_subcommand -a {} -d '{}'\n", command.name,
                            with_escapes(command.meaning, "'\\", "\\"));
        const std::string when = "__fish_seen_subcommand_from " + command.name;
        text += fish_rows(when, command.arguments) + fish_rows(when, command.options);
    }
    return text;
}

}  // namespace

std::string completion(std::string_view shell, const CommandWords& program,
                       const std::vector<CommandWords>& commands) {
    if (shell == "bash") return bash(program, commands);
    if (shell == "zsh") return zsh(program, commands);
    return fish(program, commands);
}

}  // namespace rakelight
