// Options that several commands have, told in the same words by all of them.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace rakelight {

void add_layout_file(CLI::App& command, std::string& file);

/// Where finished files go: see `finished_folder`.
void add_into(CLI::App& command, std::string& into);

/// A piece table instead of laying.
void add_pieces(CLI::App& command, std::string& pieces);

/// 0 = all that the machine has: see `ThreadLimit`.
void add_threads(CLI::App& command, int& threads);

/// The same where the command has no use for the number itself: the limit holds until the program ends.
void limit_threads(CLI::App& command);

/// Standard output is then the text of `file` and nothing else.
void add_json(CLI::App& command, bool& json, const std::string& file);

/// Of all commands that the program has, but for hidden ones.
std::vector<std::string> command_names(const CLI::App& program);

}  // namespace rakelight
