// Man pages in Markdown, for pandoc to set: what the command line says of itself.
#pragma once

#include <string>
#include <vector>

#include "output/program/command_tree.h"

namespace rakelight {

/// The whole page of a command, but for its title.
std::string manual_page(const CommandWords& command);

/// What the page of the program itself takes from the tree: the sections COMMANDS, OPTIONS and EXIT STATUS.
std::string manual_of_program(const CommandWords& program, const std::vector<CommandWords>& commands);

}  // namespace rakelight
