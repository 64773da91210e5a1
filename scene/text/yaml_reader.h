// Strict reading of YAML mappings: every getter records what is wrong, with its place, and lets reading go
// on, so that one run reports all the problems of a file. A getter leaves its target as it was (the default)
// when the key is absent or its value is bad. What a key takes stands in its row of a table (key_table.h).
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/diagnostics.h"
#include "scene/text/key_table.h"
#include "scene/text/place.h"
#include "scene/text/units.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

/// The problems found so far in one file; keeps the first hundred.
class ProblemList {
  public:
    explicit ProblemList(std::string file) : file_(std::move(file)) {}

    Place place_of(const YamlValue& at) const { return {file_, at.line, at.column}; }
    void add(const YamlValue& at, std::string key, std::string text) {
        add(place_of(at), std::move(key), std::move(text));
    }
    void add(Place place, std::string key, std::string text);
    bool empty() const { return problems_.empty(); }
    /// \throws LayoutError with everything found, by line and column, when there is anything.
    void throw_if_any() const;

  private:
    std::string file_;
    std::vector<Problem> problems_;
    size_t left_out_ = 0;
};

/// "a list of 2", "nothing", "the word ..": what a value is, for messages.
std::string found(const YamlValue& value);

/// Reads a scalar as a number into `target`. \return whether it was good.
bool read_number(double& target, const YamlValue& value, const std::string& key, Quantity quantity,
                 Range range, ProblemList& problems);

/// Reads a list of exactly `targets.size()` numbers. Nothing is changed unless all are good.
bool read_numbers(std::span<double> targets, const YamlValue& value, const std::string& key,
                  Quantity quantity, Range range, ProblemList& problems);

/// One mapping of the file while it is read. Keys are those of its table: to ask for another is a mistake of
/// the program, std::logic_error. Call `finish` at the end to report keys that the table lacks or nobody
/// asked for.
class Section {
  public:
    /// Reports a value that is not a mapping, and duplicate keys. All but the path must outlive the section.
    Section(const YamlValue& value, std::string path, const KeyTable& table, ProblemList& problems);
    /// The mapping that is the value of a key of `parent`, which takes mappings of one table.
    Section(const YamlValue& value, const Section& parent, std::string_view key);

    /// The value of a key, or null; the key counts as asked for from now on.
    const YamlValue* find(std::string_view key);
    /// As `find`, and reports its absence: "found nothing, expected ...".
    const YamlValue* require(std::string_view key, std::string_view expected);
    /// The first member whose key the row of `example` stands for; counts as asked for.
    const YamlMember* find_like(std::string_view example);
    bool has(std::string_view key) const;

    /// Each `set` returns whether the key was given and good, in the quantity and range of its row.
    bool set(double& target, std::string_view key);
    bool set(float& target, std::string_view key);
    bool set(int& target, std::string_view key);
    bool set(std::uint64_t& target, std::string_view key);
    bool set(glm::dvec2& target, std::string_view key);
    bool set(glm::dvec3& target, std::string_view key);
    /// Within a range that hangs on the rest of the file; the row says within what in any file.
    bool set(double& target, std::string_view key, Range range);
    bool set(int& target, std::string_view key, Range range);
    /// As many numbers as there are targets, of one of the quantities that the row has lists of.
    bool set(std::span<double> targets, std::string_view key, Quantity quantity, Range range);
    /// Any text that is not empty.
    bool set(std::string& target, std::string_view key);
    /// The index of a word among those of the row.
    bool set_word(size_t& target, std::string_view key);
    /// The range of the row.
    Range range(std::string_view key) const { return range_of(table_, key); }

    /// Reports a problem with a key's value, or with the section when the key is absent.
    void problem(std::string_view key, std::string text);
    /// Reports every key that the table lacks, with the nearest that it has, and every one that was not asked
    /// for.
    void finish();

    std::string path(std::string_view key) const;
    const YamlValue& value() const { return value_; }
    const KeyTable& table() const { return table_; }
    Place place() const { return problems_.place_of(value_); }
    ProblemList& problems() { return problems_; }

  private:
    const YamlMember* member(std::string_view key) const;
    void check_duplicates();
    bool set_numbers(std::span<double> targets, std::string_view key);

    const YamlValue& value_;
    std::string path_;
    const KeyTable& table_;
    ProblemList& problems_;
    std::vector<std::string> asked_;
};

/// More items than this in one list of mappings are refused, so that no check takes long.
inline constexpr size_t kMostItems = 2000;

/// The table of the mappings that a key's value may be, or be a list of. \throws std::logic_error when its
/// row has none or several.
const KeyTable& table_under(const KeyTable& table, std::string_view key);

/// Calls `read(Section&)` for each mapping in the list under `key`, then finishes it. Paths count from 1:
/// `fields[2]`. \return how many items the list has.
template <class Read>
size_t for_each_item(Section& parent, std::string_view key, const KeyTable& table, Read&& read) {
    const YamlValue* list = parent.find(key);
    if (!list) return 0;
    if (list->shape != YamlValue::Shape::list) {
        parent.problem(key, "found " + found(*list) + ", expected a list of mappings");
        return 0;
    }
    if (list->items.size() > kMostItems) {
        parent.problem(key, "found " + found(*list) + ", expected at most " + std::to_string(kMostItems));
        return list->items.size();
    }
    for (size_t i = 0; i < list->items.size(); ++i) {
        Section item(list->items[i], parent.path(key) + '[' + std::to_string(i + 1) + ']', table,
                     parent.problems());
        read(item);
        item.finish();
    }
    return list->items.size();
}

/// The same of the one table of mappings that the row of `key` has.
template <class Read>
size_t for_each_item(Section& parent, std::string_view key, Read&& read) {
    return for_each_item(parent, key, table_under(parent.table(), key), read);
}

/// Calls `read(Section&)` for the mapping under `key`, then finishes it. Any other value is reported.
/// \return whether there is such a mapping.
template <class Read>
bool for_mapping(Section& parent, std::string_view key, Read&& read) {
    const YamlValue* value = parent.find(key);
    if (!value) return false;
    Section section(*value, parent, key);
    if (value->shape != YamlValue::Shape::mapping) return false;
    read(section);
    section.finish();
    return true;
}

/// Reads `name:` into `name`, which must be given and not be in `taken`; adds it there.
void set_unique_name(Section& section, std::string& name, std::vector<std::string>& taken);

}  // namespace rakelight
