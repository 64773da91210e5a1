// What is said otherwise in a layout than before, in words.
#pragma once

#include <string>
#include <vector>

#include "scene/text/yaml_document.h"

namespace rakelight {

/// One a line, in the order of the file, such as "fields.sea.joint: 1.2 -> 1.5": entries of a list that have
/// a name are known by it, others by their number from 1. What is long is told by its key alone.
std::vector<std::string> changes_between(const YamlValue& before, const YamlValue& now);

}  // namespace rakelight
