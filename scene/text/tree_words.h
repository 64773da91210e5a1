// A YAML tree as text without places, to be compared: each word with its length before it, so that equal
// texts mean equal trees.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "scene/text/yaml_document.h"

namespace rakelight {

/// Adds the tree to `out`, without the keys at its top that `skip` names.
void add_tree_words(const YamlValue& tree, std::string& out,
                    const std::function<bool(std::string_view key)>& skip = {});

}  // namespace rakelight
