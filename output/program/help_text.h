// What `--help` prints: at most 80 columns, whatever the strings in the commands are broken at.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "output/program/command_tree.h"

namespace rakelight {

/// Words set in lines of at most `columns`; the first begins after `first` columns, the others after `next`.
/// A word longer than that stands on a line of its own. No end of line after the last.
std::string wrapped(std::string_view text, int columns, int first, int next);

/// A piece of a footer: flush lines are a paragraph to be set anew, lines that begin with blanks stand as
/// they are, but that a line which goes on below the meaning in a list, "  name  meaning", is part of the one
/// above it.
struct FooterBlock {
    bool as_it_is = false;
    bool apart = true;               ///< by an empty line from the one above it
    std::vector<std::string> lines;  ///< of a paragraph only one
};
std::vector<FooterBlock> footer_blocks(const std::string& footer);

/// A line as it is; what is beyond `columns` goes on below the meaning, in a list, or else below its
/// beginning.
std::string list_line(std::string_view line, int columns);

/// How the command is typed: "rakelight preview FILE [OPTIONS]".
std::string usage_of(const CommandWords& command);

/// `commands`: those of the program, for its own help; empty for that of a command.
std::string help_text(const CommandWords& command, const std::vector<CommandWords>& commands);

}  // namespace rakelight
