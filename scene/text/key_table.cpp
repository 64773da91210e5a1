#include "scene/text/key_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "scene/text/word_list.h"

namespace rakelight {

std::vector<std::string> words_of(std::string_view listed) {
    std::vector<std::string> words;
    while (!listed.empty()) {
        const std::size_t end = std::min(listed.find(", "), listed.size());
        words.emplace_back(listed.substr(0, end));
        listed.remove_prefix(std::min(end + 2, listed.size()));
    }
    return words;
}

std::vector<std::string> list_of_words(const WordSource& words) {
    return words.of ? words.of() : words_of(words.listed);
}

const KeyRow* row_of(const KeyTable& table, std::string_view key) {
    for (const KeyRow& row : table.rows)
        if (!row.stands_for && row.key == key) return &row;
    for (const KeyRow& row : table.rows)
        if (row.stands_for && key.starts_with(row.begins) &&
            (row.names.empty() || holds(list_of_words(row.names), key)))
            return &row;
    return nullptr;
}

const KeyRow& row(const KeyTable& table, std::string_view key) {
    const KeyRow* found = row_of(table, key);
    if (!found) throw std::logic_error(fmt::format("the table {} has no row for {}", table.name, key));
    return *found;
}

const Taken* shape_of(const KeyRow& row, Form form) {
    for (const Taken& taken : row.takes.all())
        if (taken.form == form) return &taken;
    return nullptr;
}

Range range_of(const KeyTable& table, std::string_view key) {
    for (const Taken& taken : row(table, key).takes.all())
        if (taken.form == Form::number || taken.form == Form::whole || taken.form == Form::numbers)
            return taken.range;
    throw std::logic_error(fmt::format("the key {} of {} takes no number", key, table.name));
}

std::vector<std::string> words_of(const KeyTable& table, std::string_view key) {
    for (const Taken& taken : row(table, key).takes.all()) {
        if (taken.form == Form::word) return list_of_words(taken.words);
        if (taken.form == Form::list && taken.item)
            for (const Taken& item : taken.item->all())
                if (item.form == Form::word) return list_of_words(item.words);
    }
    throw std::logic_error(fmt::format("the key {} of {} takes no word", key, table.name));
}

std::vector<std::string> known_keys(const KeyTable& table) {
    std::vector<std::string> keys;
    for (const KeyRow& row : table.rows)
        if (row.names.empty())
            keys.emplace_back(row.key);
        else
            for (std::string& name : list_of_words(row.names)) keys.push_back(std::move(name));
    return keys;
}

}  // namespace rakelight
