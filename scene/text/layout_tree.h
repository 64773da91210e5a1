// A layout file with all that it is made from, as one tree: the layout that it is like, its stock libraries,
// and changes asked for on the command line. Every value keeps the file, line and column where it was
// written.
//
//     like: tide.yaml                 # that layout, with what is said here changed (tree_merge.h)
//     stock from: my-glass.yaml       # or a list: files with pigments, tints and stock, shared by layouts
#pragma once

#include <array>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/yaml_document.h"

namespace rakelight {

/// More files than this in one layout are refused.
inline constexpr std::size_t kMostLayoutFiles = 32;

/// Keys at the top of a layout file that say what it is made from.
inline constexpr std::array<std::string_view, 2> kMakingKeys{"like", "stock from"};

struct LayoutTree {
    YamlValue root;                  ///< without the keys above, which have done their work
    std::vector<std::string> files;  ///< besides the layout file, paths as opened, each once
};

/// A file's name in quotes, uncut: where it was looked for is what its reader wants to know.
std::string quoted_whole(const std::filesystem::path& path);

/// The bytes of a layout file. \throws LayoutError when there is none, or it is no file or over
/// kMostFileBytes.
std::string layout_file_text(const std::filesystem::path& path);

/// Reads what the text of a layout file is made from. Names of files are seen from the file in which they
/// stand. A library holds pigments, tints, stock and more libraries, nothing else; its entries come before
/// those of the file that asks for it. \throws LayoutError when a file is missing or no YAML, or files go
/// round in a circle.
LayoutTree gather_layout(std::string_view text, const std::string& file);

/// Makes changes such as "fields.sea.grout=black" (tree_override.h) in their order. A value in brackets or
/// quotes is read as YAML, any other is a word or number as it stands. The place of such a value is "--set"
/// and the path. \throws LayoutError with all that cannot be set, and the nearest name.
void change_tree(YamlValue& root, std::span<const std::string> changes);

}  // namespace rakelight
