// What a shell completes: commands, their options, files where a file follows.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "output/program/command_tree.h"

namespace rakelight {

/// Shells there is a completion for.
inline const std::vector<std::string> kShells{"bash", "zsh", "fish"};

/// The script for one of `kShells`, to be read by that shell. `program`: the options beside the commands.
std::string completion(std::string_view shell, const CommandWords& program,
                       const std::vector<CommandWords>& commands);

}  // namespace rakelight
