#include "scene/text/tree_override.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

constexpr std::string_view kAll = "all";

// Whether `rest` begins with the word `head`, alone or before a point; `tail` is then what follows.
bool begins(std::string_view rest, std::string_view head, std::string_view& tail) {
    if (head.empty() || !rest.starts_with(head)) return false;
    if (rest.size() == head.size()) {
        tail = {};
        return true;
    }
    if (rest[head.size()] != '.') return false;
    tail = rest.substr(head.size() + 1);
    return true;
}

std::string_view text_of(const YamlValue& item, std::string_view key) {
    const YamlValue* value = member_of(item, key);
    return value && value->shape == Shape::scalar ? std::string_view(value->text) : std::string_view();
}

struct Walk {
    const YamlValue& path;
    const YamlValue& value;
    const std::string& key;
    ProblemList& problems;

    bool fail(std::string text) const {
        problems.add(path, key, std::move(text));
        return false;
    }

    bool set(YamlValue& at, std::string_view rest) const {
        if (rest.empty()) {
            at = value;
            return true;
        }
        if (at.shape == Shape::list) return into_list(at, rest);
        if (at.shape == Shape::scalar)
            return fail(
                fmt::format("found {}, expected a path that ends at {}", quoted(path.text), quoted(at.text)));
        return into_mapping(at, rest);
    }

    bool into_mapping(YamlValue& at, std::string_view rest) const {
        YamlMember* longest = nullptr;
        std::string_view tail;
        for (YamlMember& m : at.members)
            if (std::string_view after; begins(rest, m.key.text, after))
                if (!longest || m.key.text.size() > longest->key.text.size()) longest = &m, tail = after;
        if (longest) {
            // Messages about a wrong key point at the one who asks for it.
            if (tail.empty()) longest->key = scalar_at(path, longest->key.text);
            return set(longest->value, tail);
        }
        const std::size_t point = std::min(rest.find('.'), rest.size());
        if (point == 0) return fail(fmt::format("found {}, expected a path of keys", quoted(path.text)));
        YamlValue fresh = scalar_at(path, {});
        fresh.shape = Shape::nothing;
        at.shape = Shape::mapping;
        at.members.push_back({scalar_at(path, std::string(rest.substr(0, point))), fresh});
        return set(at.members.back().value,
                   point < rest.size() ? rest.substr(point + 1) : std::string_view());
    }

    bool into_list(YamlValue& at, std::string_view rest) const {
        std::string_view longest, tail;
        bool by_group = false;
        std::vector<std::string> known;
        for (const bool group : {false, true})
            for (const YamlValue& item : at.items) {
                const std::string_view name = text_of(item, group ? "group" : "name");
                if (!name.empty()) known.emplace_back(name);
                if (std::string_view after; begins(rest, name, after) && name.size() > longest.size())
                    longest = name, tail = after, by_group = group;
            }
        if (!longest.empty()) {
            bool good = true;
            for (YamlValue& item : at.items)
                if (text_of(item, by_group ? "group" : "name") == longest) good = set(item, tail) && good;
            return good;
        }
        const std::string_view word = rest.substr(0, rest.find('.'));
        if (word == kAll && !at.items.empty()) {
            bool good = true;
            const std::string_view after = word.size() < rest.size() ? rest.substr(word.size() + 1) : "";
            for (YamlValue& item : at.items) good = set(item, after) && good;
            return good;
        }
        std::size_t number = 0;
        const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
        if (error == std::errc() && end == word.data() + word.size() && known.empty()) {
            if (number < 1 || number > at.items.size())
                return fail(fmt::format("found number {}, expected 1 to {}", number, at.items.size()));
            return set(at.items[number - 1],
                       word.size() < rest.size() ? rest.substr(word.size() + 1) : std::string_view());
        }
        if (known.empty())
            return fail(
                fmt::format("found {}, expected a number from 1 to {}", quoted(word), at.items.size()));
        return fail(fmt::format("found the unknown name {}, expected one of {}{}", quoted(word),
                                fmt::join(known, ", "), did_you_mean(word, known)));
    }
};

}  // namespace

YamlValue scalar_at(const YamlValue& place, std::string text) {
    YamlValue v;
    v.shape = Shape::scalar;
    v.line = place.line;
    v.column = place.column;
    v.file = place.file;
    v.text = std::move(text);
    return v;
}

const YamlValue* member_of(const YamlValue& mapping, std::string_view key) {
    for (const YamlMember& m : mapping.members)
        if (m.key.text == key) return &m.value;
    return nullptr;
}

YamlValue* member_of(YamlValue& mapping, std::string_view key) {
    return const_cast<YamlValue*>(member_of(std::as_const(mapping), key));
}

void set_member(YamlValue& mapping, const YamlValue& key, YamlValue value) {
    if (YamlValue* there = member_of(mapping, key.text)) {
        *there = std::move(value);
        return;
    }
    mapping.shape = Shape::mapping;
    mapping.members.push_back({key, std::move(value)});
}

std::vector<YamlValue*> items_called(YamlValue& tree, std::string_view key, std::string_view name) {
    std::vector<YamlValue*> found;
    YamlValue* list = member_of(tree, key);
    if (!list) return found;
    for (const char* by : {"name", "group"}) {
        for (YamlValue& item : list->items)
            if (text_of(item, by) == name) found.push_back(&item);
        if (!found.empty()) break;
    }
    return found;
}

bool override_tree(YamlValue& tree, const YamlValue& path, const YamlValue& value, const std::string& key,
                   ProblemList& problems) {
    return Walk{path, value, key, problems}.set(tree, path.text);
}

}  // namespace rakelight
