// A layout said a little differently: changes made to the tree of a YAML file before it is read, so that
// every check of the reader holds for the change as well and names the place where the change was written.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Sets what lies at a path such as `fields.sea.grout` or `lamps.left spot.temperature`. An item of a list is
/// meant by its `name`, or by its `group` (then all that have it), or where items have neither by its number
/// from 1; `all` means every item, unless one is called so. Names may hold points and spaces. A key that is
/// not there yet is added: whether it means anything the reader will say. `path` also gives the place for
/// messages, `key` what they are about. \return whether it could be set; else `problems` says why, with the
/// nearest name.
bool override_tree(YamlValue& tree, const YamlValue& path, const YamlValue& value, const std::string& key,
                   ProblemList& problems);

/// A scalar as if written at another one's place.
YamlValue scalar_at(const YamlValue& place, std::string text);

/// The value of a mapping's key; null when there is none, or it is no mapping.
YamlValue* member_of(YamlValue& mapping, std::string_view key);
const YamlValue* member_of(const YamlValue& mapping, std::string_view key);

/// Sets a key of a mapping, which may be empty so far.
void set_member(YamlValue& mapping, const YamlValue& key, YamlValue value);

/// The items of a list under `key` that have this name, or else this group.
std::vector<YamlValue*> items_called(YamlValue& tree, std::string_view key, std::string_view name);

}  // namespace rakelight
