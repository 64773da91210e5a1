// What the entries of a section such as `stock` say of one thing, inherited by those that are `like` another.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "scene/text/yaml_reader.h"

namespace rakelight {

/// By name of the entry. One with `key` says it itself, as `read(Section&)` takes it: an optional Value. Any
/// other has that of the entry before it that it is `like`, unless a key `unless` makes another thing of it.
template <class Value, class Read>
std::map<std::string, Value> said_by_entries(Section& file, std::string_view section, std::string_view key,
                                             std::string_view unless, Read&& read) {
    std::map<std::string, Value> said;
    const YamlValue* entries = file.find(section);
    if (!entries || entries->shape != YamlValue::Shape::mapping) return said;
    const Section all(*entries, file, section);
    for (const YamlMember& entry : entries->members) {
        if (entry.value.shape != YamlValue::Shape::mapping) continue;
        Section in(entry.value, all, entry.key.text);
        std::string like;
        if (in.has(key)) {
            if (std::optional<Value> value = read(in)) said[entry.key.text] = *std::move(value);
        } else if (in.set(like, "like") && said.contains(like) && !in.has(unless)) {
            said[entry.key.text] = said[like];
        }
    }
    return said;
}

}  // namespace rakelight
