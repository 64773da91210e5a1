#include "scene/text/tree_merge.h"

#include <algorithm>
#include <utility>

#include "scene/text/tree_override.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

const YamlValue* name_of(const YamlValue& item) {
    const YamlValue* name = member_of(item, "name");
    return name && name->shape == Shape::scalar ? name : nullptr;
}

bool is_list_of_named(const YamlValue& value) {
    return value.shape == Shape::list && !value.items.empty() &&
           std::all_of(value.items.begin(), value.items.end(), name_of);
}

void stand_at(YamlValue& value, const YamlValue& there) {
    value.line = there.line;
    value.column = there.column;
    value.file = there.file;
}

// How many floors of keys below a value are still changed one by one.
constexpr int kOfSection = 1, kOfLayout = 2;

void change(YamlValue& base, const YamlValue& over, int floors);

void change_keys(YamlValue& base, const YamlValue& over, int floors) {
    const std::size_t of_base = base.members.size();
    std::vector<bool> changed(of_base, false), gone(of_base, false);
    for (const YamlMember& m : over.members) {
        const auto end = base.members.begin() + static_cast<std::ptrdiff_t>(of_base);
        const auto at = std::find_if(base.members.begin(), end,
                                     [&](const YamlMember& b) { return b.key.text == m.key.text; });
        const auto i = static_cast<std::size_t>(at - base.members.begin());
        // One that `over` says twice stays there twice, for the reader to refuse.
        if (at == end || changed[i]) {
            base.members.push_back(m);
            continue;
        }
        changed[i] = true;
        gone[i] = m.value.shape == Shape::nothing;
        at->key = m.key;
        change(at->value, m.value, floors - 1);
    }
    for (std::size_t i = of_base; i-- > 0;)
        if (gone[i]) base.members.erase(base.members.begin() + static_cast<std::ptrdiff_t>(i));
    stand_at(base, over);
}

void change_items(YamlValue& base, const YamlValue& over) {
    const std::size_t of_base = base.items.size();
    std::vector<bool> changed(of_base, false);
    for (const YamlValue& item : over.items) {
        std::size_t i = 0;
        while (i < of_base && name_of(base.items[i])->text != name_of(item)->text) ++i;
        if (i == of_base || changed[i]) {
            base.items.push_back(item);
            continue;
        }
        changed[i] = true;
        change_keys(base.items[i], item, kOfSection);
    }
    stand_at(base, over);
}

void change(YamlValue& base, const YamlValue& over, int floors) {
    if (is_list_of_named(base) && is_list_of_named(over))
        change_items(base, over);
    else if (floors > 0 && base.shape == Shape::mapping && over.shape == Shape::mapping)
        change_keys(base, over, floors);
    else
        base = over;
}

}  // namespace

YamlValue merged(YamlValue base, const YamlValue& over) {
    change(base, over, kOfLayout);
    return base;
}

}  // namespace rakelight
