#include "scene/reading/deliverable_section.h"

#include <algorithm>
#include <string>
#include <utility>

#include "scene/keys/keys.h"

namespace rakelight {

bool read_deliverable_text(std::string_view text, std::string file_name, std::string_view key,
                           const std::function<void(Section&)>& read) {
    const YamlValue document = parse_yaml(text, file_name);
    ProblemList problems(std::move(file_name));
    const auto member = std::find_if(document.members.begin(), document.members.end(),
                                     [&](const YamlMember& m) { return m.key.text == key; });
    const bool given = member != document.members.end();
    YamlValue none;
    none.shape = YamlValue::Shape::mapping;
    none.line = none.column = 1;
    Section section(given ? member->value : none, std::string(key), table_under(keys::layout, key), problems);
    // A value that is no mapping has been reported; asking it for keys would only add noise.
    if (!given || member->value.shape == YamlValue::Shape::mapping) {
        read(section);
        section.finish();
    }
    problems.throw_if_any();
    return given;
}

bool read_deliverable(const std::filesystem::path& layout_file, std::string_view key,
                      const std::function<void(Section&)>& read) {
    return read_deliverable_text(layout_file_text(layout_file), layout_file.string(), key, read);
}

}  // namespace rakelight
