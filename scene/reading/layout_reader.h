// From a layout file to a checked layout.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "scene/model/layout.h"
#include "scene/text/diagnostics.h"
#include "scene/text/layout_tree.h"

namespace rakelight {

/// Reads and checks a layout file; what it does not say gets its default (defaults.h). The size of the file
/// is looked at before anything is read. `pieces`: a piece table to take instead of the one that the layout
/// names, if any. `changes`: to what the file says, see change_tree. \throws LayoutError with all the
/// problems of the file and of those that it is made from (layout_tree.h).
Layout read_layout(const std::filesystem::path& path, const std::filesystem::path& pieces = {},
                   std::span<const std::string> changes = {});

/// The same from text; `file_name` stands for the file in messages and in `Sources::path`.
Layout read_layout_text(std::string_view text, std::string file_name,
                        const std::filesystem::path& pieces = {});

/// The same from the tree, which may have been changed: places are the tree's.
Layout read_layout_tree(LayoutTree tree, std::string file_name, const std::filesystem::path& pieces = {});

}  // namespace rakelight
