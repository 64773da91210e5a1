// From a layout file to a checked layout.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "scene/model/layout.h"
#include "scene/text/diagnostics.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

/// Reads and checks a layout file; what it does not say gets its default (defaults.h). The size of the file
/// is looked at before anything is read. `pieces`: a piece table to take instead of the one that the layout
/// names, if any. \throws LayoutError with all the problems of the file.
Layout read_layout(const std::filesystem::path& path, const std::filesystem::path& pieces = {});

/// The same from text; `file_name` stands for the file in messages and in `Sources::path`.
Layout read_layout_text(std::string_view text, std::string file_name,
                        const std::filesystem::path& pieces = {});

/// The same from the tree of a text (yaml_document.h), which may have been changed: places are the tree's.
Layout read_layout_tree(const YamlValue& document, std::string file_name,
                        const std::filesystem::path& pieces = {});

/// The bytes of a layout file. \throws LayoutError when there is none, or it is no file or over
/// kMostFileBytes.
std::string layout_file_text(const std::filesystem::path& path);

}  // namespace rakelight
