#include "output/watch/changes.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/text/tree_words.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

constexpr std::size_t kShort = 40;

std::string words_of(const YamlValue& value) {
    std::string text;
    add_tree_words(value, text);
    return text;
}

// As it may be written on one line; empty when it is a mapping.
std::string shown(const YamlValue& value) {
    if (value.shape == Shape::scalar) return value.text;
    if (value.shape != Shape::list) return {};
    std::string text;
    for (const YamlValue& item : value.items) {
        const std::string one = shown(item);
        if (one.empty()) return {};
        text += (text.empty() ? "[" : ", ") + one;
    }
    return text.empty() ? "[]" : text + "]";
}

const YamlValue* member(const YamlValue& value, std::string_view key) {
    for (const YamlMember& m : value.members)
        if (m.key.text == key) return &m.value;
    return nullptr;
}

std::string name_of(const YamlValue& item) {
    const YamlValue* name = member(item, "name");
    return name ? name->text : std::string();
}

class Comparison {
  public:
    std::vector<std::string> lines;

    void compare(const YamlValue& before, const YamlValue& now, const std::string& at) {
        if (words_of(before) == words_of(now)) return;
        if (before.shape == Shape::mapping && now.shape == Shape::mapping)
            return compare_members(before, now, at);
        if (holds_mappings(before) && holds_mappings(now)) return compare_items(before, now, at);
        const std::string from = shown(before), to = shown(now);
        const bool is_short = !from.empty() && !to.empty() && from.size() <= kShort && to.size() <= kShort;
        lines.push_back(is_short ? fmt::format("{}: {} -> {}", at, from, to) : at + " is another");
    }

  private:
    static bool holds_mappings(const YamlValue& list) {
        return list.shape == Shape::list && !list.items.empty() &&
               std::ranges::all_of(list.items, [](const YamlValue& v) { return v.shape == Shape::mapping; });
    }

    static std::string joined(const std::string& at, const std::string& key) {
        return at.empty() ? key : at + "." + key;
    }

    void compare_members(const YamlValue& before, const YamlValue& now, const std::string& at) {
        for (const YamlMember& m : before.members)
            if (!member(now, m.key.text)) lines.push_back(joined(at, m.key.text) + " is gone");
        for (const YamlMember& m : now.members) {
            const std::string here = joined(at, m.key.text);
            if (const YamlValue* was = member(before, m.key.text))
                compare(*was, m.value, here);
            else
                lines.push_back(shown(m.value).empty() || shown(m.value).size() > kShort
                                    ? here + " is new"
                                    : fmt::format("{} is new: {}", here, shown(m.value)));
        }
    }

    void compare_items(const YamlValue& before, const YamlValue& now, const std::string& at) {
        const auto called = [](const YamlValue& list, const std::string& name) -> const YamlValue* {
            for (const YamlValue& item : list.items)
                if (name_of(item) == name) return &item;
            return nullptr;
        };
        for (const YamlValue& item : before.items)
            if (!name_of(item).empty() && !called(now, name_of(item)))
                lines.push_back(joined(at, name_of(item)) + " is gone");
        for (std::size_t i = 0; i < now.items.size(); ++i) {
            const std::string name = name_of(now.items[i]);
            const std::string here = joined(at, name.empty() ? std::to_string(i + 1) : name);
            const YamlValue* was = !name.empty()             ? called(before, name)
                                   : i < before.items.size() ? &before.items[i]
                                                             : nullptr;
            if (was)
                compare(*was, now.items[i], here);
            else
                lines.push_back(here + " is new");
        }
        const bool nameless =
            std::ranges::all_of(now.items, [](const YamlValue& v) { return name_of(v).empty(); });
        for (std::size_t i = now.items.size(); nameless && i < before.items.size(); ++i)
            if (name_of(before.items[i]).empty())
                lines.push_back(joined(at, std::to_string(i + 1)) + " is gone");
        const auto order = [&](const YamlValue& list) {
            std::vector<std::string> names;
            for (const YamlValue& item : list.items) names.push_back(name_of(item));
            return names;
        };
        std::vector<std::string> was = order(before), is = order(now);
        if (was != is && std::ranges::is_permutation(was, is))
            lines.push_back(at + " stand in another order");
    }
};

}  // namespace

std::vector<std::string> changes_between(const YamlValue& before, const YamlValue& now) {
    Comparison comparison;
    comparison.compare(before, now, "");
    return comparison.lines;
}

}  // namespace rakelight
