// Strict reading of YAML mappings: every getter records what is wrong, with its place, and lets reading go
// on, so that one run reports all the problems of a file. A getter leaves its target as it was (the default)
// when the key is absent or its value is bad.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/diagnostics.h"
#include "scene/text/place.h"
#include "scene/text/units.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

/// The problems found so far in one file and in those that it is made from; keeps the first hundred.
class ProblemList {
  public:
    explicit ProblemList(std::string file) : file_(std::move(file)) {}

    Place place_of(const YamlValue& at) const { return {at.file ? *at.file : file_, at.line, at.column}; }
    /// A file that is named at `at`: names are seen from the file in which they stand, those of the command
    /// line (line 0) from the one that is read.
    std::string beside(const YamlValue& at, const std::string& name) const;
    void add(const YamlValue& at, std::string key, std::string text) {
        add(place_of(at), std::move(key), std::move(text));
    }
    void add(Place place, std::string key, std::string text);
    bool empty() const { return problems_.empty(); }
    /// \throws LayoutError with everything found, by file, line and column, when there is anything.
    void throw_if_any() const;

  private:
    std::string file_;
    std::vector<Problem> problems_;
    size_t left_out_ = 0;
};

/// Limits of a number in its kept unit, both allowed.
struct Range {
    double low = 0;
    double high = 0;
};

/// "a list of 2", "nothing", "the word ..": what a value is, for messages.
std::string found(const YamlValue& value);

/// Reads a scalar as a number into `target`. \return whether it was good.
bool read_number(double& target, const YamlValue& value, const std::string& key, Quantity quantity,
                 Range range, ProblemList& problems);

/// Reads a list of exactly `targets.size()` numbers. Nothing is changed unless all are good.
bool read_numbers(std::span<double> targets, const YamlValue& value, const std::string& key,
                  Quantity quantity, Range range, ProblemList& problems);

/// One mapping of the file while it is read. Call `finish` at the end to report the keys nobody asked for.
class Section {
  public:
    /// Reports a value that is not a mapping, and duplicate keys. `value` and `problems` must outlive the
    /// section.
    Section(const YamlValue& value, std::string path, ProblemList& problems);

    /// The value of a key, or null; the key counts as known from now on.
    const YamlValue* find(std::string_view key);
    /// As `find`, and reports its absence: "found nothing, expected ...".
    const YamlValue* require(std::string_view key, std::string_view expected);
    /// The first member whose key starts with `prefix`; counts as known. `example` stands for it in
    /// suggestions.
    const YamlMember* find_prefix(std::string_view prefix, std::string_view example);
    bool has(std::string_view key) const;

    /// Each `set` returns whether the key was given and good.
    bool set(double& target, std::string_view key, Quantity quantity, Range range);
    bool set(float& target, std::string_view key, Quantity quantity, Range range);
    /// A whole number.
    bool set(int& target, std::string_view key, Range range);
    bool set(std::uint64_t& target, std::string_view key);
    bool set(glm::dvec2& target, std::string_view key, Quantity quantity, Range range);
    bool set(glm::dvec3& target, std::string_view key, Quantity quantity, Range range);
    /// Any text that is not empty.
    bool set(std::string& target, std::string_view key);
    /// The index in `words` of a word that must be one of them.
    bool set_word(size_t& target, std::string_view key, std::span<const std::string> words);

    /// Reports a problem with a key's value, or with the section when the key is absent.
    void problem(std::string_view key, std::string text);
    /// Reports every key that was never asked for, with the nearest that was.
    void finish();

    std::string path(std::string_view key) const;
    const YamlValue& value() const { return value_; }
    Place place() const { return problems_.place_of(value_); }
    ProblemList& problems() { return problems_; }

  private:
    const YamlMember* member(std::string_view key) const;

    const YamlValue& value_;
    std::string path_;
    ProblemList& problems_;
    std::vector<std::string> known_;
    std::vector<const YamlMember*> taken_by_prefix_;
};

/// More items than this in one list of mappings are refused, so that no check takes long.
inline constexpr size_t kMostItems = 2000;

/// Calls `read(Section&)` for each mapping in the list under `key`, then finishes it. Paths count from 1:
/// `fields[2]`. \return how many items the list has.
template <class Read>
size_t for_each_item(Section& parent, std::string_view key, Read&& read) {
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
        Section item(list->items[i], parent.path(key) + '[' + std::to_string(i + 1) + ']', parent.problems());
        read(item);
        item.finish();
    }
    return list->items.size();
}

/// Calls `read(Section&)` for the mapping under `key`, then finishes it. Any other value is reported.
/// \return whether there is such a mapping.
template <class Read>
bool for_mapping(Section& parent, std::string_view key, Read&& read) {
    const YamlValue* value = parent.find(key);
    if (!value) return false;
    Section section(*value, parent.path(key), parent.problems());
    if (value->shape != YamlValue::Shape::mapping) return false;
    read(section);
    section.finish();
    return true;
}

/// Reads `name:` into `name`, which must be given and not be in `taken`; adds it there.
void set_unique_name(Section& section, std::string& name, std::vector<std::string>& taken);

}  // namespace rakelight
