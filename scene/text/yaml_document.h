// A YAML text as a plain tree that knows where everything was written.
// Built straight from yaml-cpp's parse events, so that every limit holds before a node exists: no aliases
// (with none, a small file cannot unfold into a huge one), bounded depth, count and size.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/diagnostics.h"

namespace rakelight {

/// Limits of a layout file; more is refused.
inline constexpr size_t kMostFileBytes = 8u << 20;
inline constexpr int kMostDepth = 64;
inline constexpr int kMostValues = 200'000;

struct YamlMember;

/// A scalar, a list, a mapping, or nothing (an empty or null value).
struct YamlValue {
    enum class Shape { nothing, scalar, list, mapping };
    Shape shape = Shape::nothing;
    int line = 0;    ///< from 1; 0 = the file as a whole
    int column = 0;  ///< from 1
    /// Where it was written, since a layout is made of several files (layout_tree.h); null = not said.
    std::shared_ptr<const std::string> file;
    std::string text;                 ///< of a scalar
    std::vector<YamlValue> items;     ///< of a list
    std::vector<YamlMember> members;  ///< of a mapping, in file order, duplicates kept
};

struct YamlMember {
    YamlValue key;  ///< a scalar
    YamlValue value;
};

/// The single document of a YAML text. `file` only names it in messages.
/// \throws LayoutError at the first place where the text is not YAML, goes over a limit or uses an alias, a
/// tag, a key that is not a word, or a second document.
YamlValue parse_yaml(std::string_view text, const std::string& file);

}  // namespace rakelight
