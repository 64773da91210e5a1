// A layout read and laid for a command, with its warnings printed on stderr.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"

namespace rakelight {

/// Each on a line of its own on stderr.
void print_warnings(const std::vector<std::string>& warnings);

/// Finds the lines of a drawing on paper that the layout names where that is due, and says so on stderr: see
/// prepare_scan. For commands that read the layout by themselves.
void find_drawing_on_paper(const std::string& file, const std::vector<std::string>& changes);

/// `pieces`: a piece table to take instead of laying; empty = none. `changes`: of --set. \throws LayoutError
/// as `read_layout`.
Layout read_and_warn(const std::string& file, const std::string& pieces,
                     const std::vector<std::string>& changes);

/// \throws LayoutError as `lay`, Interrupted.
Laying lay_and_warn(const Layout& layout);

}  // namespace rakelight
