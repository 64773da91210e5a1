// The command or option that a mistyped one was most likely meant to be.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

namespace rakelight {

/// The first word of a command line that the program does not have, in a sentence with the nearest that it
/// has; none when all commands and options are known. `words`: without the name of the program.
std::optional<std::string> mistyped(const CLI::App& program, const std::vector<std::string>& words);

}  // namespace rakelight
