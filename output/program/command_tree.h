// The command line as plain values, read off the tree that parses it: what help, completion and man pages say
// cannot differ from what the program takes.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace rakelight {

/// An option or a positional argument.
struct OptionWords {
    std::vector<std::string> names;                ///< "-h", "--help"; empty for a positional argument
    std::string value;                             ///< what follows it: "FILE"; empty for a flag
    std::string meaning;                           ///< in words, without the rest of these
    std::string range;                             ///< "0 to 1024", or empty
    std::vector<std::string> choices;              ///< the only values there are, or empty
    std::string usual;                             ///< what it is unless given, or empty
    std::vector<std::string> not_with, only_with;  ///< names of other options
    bool required = false;
    bool many = false;  ///< takes several values

    /// The meaning with range, choices, usual value and company after it.
    std::string told() const;
};

struct CommandWords {
    std::string name;  ///< empty for the program itself
    std::string meaning;
    std::vector<OptionWords> arguments, options;
    std::string footer;
};

/// Of a command, or of the program. Hidden options are left out.
CommandWords words_of(const CLI::App& command);

/// All commands in the order of the help; hidden ones are left out.
std::vector<CommandWords> commands_of(const CLI::App& program);

}  // namespace rakelight
