#include "scene/text/yaml_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <tuple>

#include "scene/text/nearest_word.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr size_t kMostProblems = 100;

// A place as said to one who looks at another.
std::string where(const YamlValue& there, const YamlValue& here) {
    if (there.file == here.file || !there.file) return fmt::format("line {}", there.line);
    return fmt::format("{}:{}", *there.file, there.line);
}

bool read_whole(double& target, const YamlValue& value, const std::string& key, Range range,
                ProblemList& problems) {
    double number = 0;
    if (!read_number(number, value, key, Quantity::plain, range, problems)) return false;
    if (number != std::floor(number)) {
        problems.add(value, key, "found " + quoted(value.text) + ", expected a whole number");
        return false;
    }
    target = number;
    return true;
}

}  // namespace

void ProblemList::add(Place place, std::string key, std::string text) {
    if (problems_.size() < kMostProblems)
        problems_.push_back({std::move(place), std::move(key), std::move(text)});
    else
        ++left_out_;
}

std::string ProblemList::beside(const YamlValue& at, const std::string& name) const {
    const std::string& from = at.file && at.line > 0 ? *at.file : file_;
    return name.starts_with('/') ? name : from.substr(0, from.rfind('/') + 1) + name;
}

void ProblemList::throw_if_any() const {
    if (problems_.empty()) return;
    auto sorted = problems_;
    const auto order = [&](const Problem& p) {
        return std::tuple(p.place.file != file_, std::string_view(p.place.file), p.place.line,
                          p.place.column);
    };
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const Problem& a, const Problem& b) { return order(a) < order(b); });
    if (left_out_ > 0) {
        Problem rest;
        rest.place.file = file_;
        rest.text = fmt::format("and {} more problems", left_out_);
        sorted.push_back(std::move(rest));
    }
    throw LayoutError(std::move(sorted));
}

std::string found(const YamlValue& value) {
    switch (value.shape) {
        case Shape::nothing:
            return "nothing";
        case Shape::scalar:
            return quoted(value.text);
        case Shape::list:
            return fmt::format("a list of {}", value.items.size());
        case Shape::mapping:
            return "a mapping";
    }
    return "";
}

bool read_number(double& target, const YamlValue& value, const std::string& key, Quantity quantity,
                 Range range, ProblemList& problems) {
    if (value.shape != Shape::scalar) {
        problems.add(value, key, "found " + found(value) + ", expected " + describe(quantity));
        return false;
    }
    const Measure measure = read_measure(value.text, quantity);
    if (!measure.ok()) {
        problems.add(value, key, measure.problem);
        return false;
    }
    if (measure.value < range.low || measure.value > range.high) {
        problems.add(value, key, "found " + quoted(value.text) + ", expected " + range_text(quantity, range));
        return false;
    }
    target = measure.value;
    return true;
}

bool read_numbers(std::span<double> targets, const YamlValue& value, const std::string& key,
                  Quantity quantity, Range range, ProblemList& problems) {
    if (value.shape != Shape::list || value.items.size() != targets.size()) {
        problems.add(value, key,
                     fmt::format("found {}, expected a list of {} numbers", found(value), targets.size()));
        return false;
    }
    std::vector<double> numbers(targets.size());
    bool good = true;
    for (size_t i = 0; i < targets.size(); ++i)
        good &= read_number(numbers[i], value.items[i], key, quantity, range, problems);
    if (good) std::copy(numbers.begin(), numbers.end(), targets.begin());
    return good;
}

namespace {

/// The shape of a row for which `good`.
template <class Good>
const Taken& shape_for(const KeyTable& table, std::string_view key, Good&& good, const char* what) {
    for (const Taken& taken : row(table, key).takes.all())
        if (good(taken)) return taken;
    throw std::logic_error(fmt::format("the key {} of {} takes no {}", key, table.name, what));
}

const Taken& number_shape(const KeyTable& table, std::string_view key) {
    return shape_for(
        table, key, [](const Taken& t) { return t.form == Form::number; }, "number");
}

const Taken& whole_shape(const KeyTable& table, std::string_view key) {
    return shape_for(
        table, key, [](const Taken& t) { return t.form == Form::whole; }, "whole number");
}

}  // namespace

const KeyTable& table_under(const KeyTable& table, std::string_view key) {
    const KeyTable* found = nullptr;
    const auto take = [&](const Taken& taken) {
        if (found && taken.table && taken.table != found)
            throw std::logic_error(fmt::format("the key {} of {} takes several mappings", key, table.name));
        if (taken.table) found = taken.table;
    };
    for (const Taken& taken : row(table, key).takes.all()) {
        take(taken);
        if (taken.item)
            for (const Taken& item : taken.item->all()) take(item);
    }
    if (!found) throw std::logic_error(fmt::format("the key {} of {} takes no mapping", key, table.name));
    return *found;
}

Section::Section(const YamlValue& value, std::string path, const KeyTable& table, ProblemList& problems)
    : value_(value), path_(std::move(path)), table_(table), problems_(problems) {
    check_duplicates();
}

Section::Section(const YamlValue& value, const Section& parent, std::string_view key)
    : Section(value, parent.path(key), table_under(parent.table_, key), parent.problems_) {}

void Section::check_duplicates() {
    if (value_.shape != Shape::mapping) {
        problems_.add(value_, path_, "found " + found(value_) + ", expected a mapping (key: value)");
        return;
    }
    std::vector<const YamlMember*> by_key;
    for (const YamlMember& m : value_.members) by_key.push_back(&m);
    std::stable_sort(by_key.begin(), by_key.end(),
                     [](const YamlMember* a, const YamlMember* b) { return a->key.text < b->key.text; });
    for (size_t i = 1; i < by_key.size(); ++i)
        if (by_key[i]->key.text == by_key[i - 1]->key.text)
            problems_.add(by_key[i]->key, path(by_key[i]->key.text),
                          fmt::format("found the key again, expected it once; it is also at {}",
                                      where(by_key[i - 1]->key, by_key[i]->key)));
}

const YamlMember* Section::member(std::string_view key) const {
    const auto m = std::find_if(value_.members.begin(), value_.members.end(),
                                [&](const YamlMember& each) { return each.key.text == key; });
    return m == value_.members.end() ? nullptr : &*m;
}

const YamlValue* Section::find(std::string_view key) {
    row(table_, key);
    if (!holds(asked_, key)) asked_.emplace_back(key);
    const YamlMember* m = member(key);
    return m ? &m->value : nullptr;
}

const YamlValue* Section::require(std::string_view key, std::string_view expected) {
    const YamlValue* value = find(key);
    // A value of the wrong shape altogether was reported by the constructor.
    if (!value && value_.shape == Shape::mapping)
        problems_.add(value_, path(key), fmt::format("found nothing, expected {}", expected));
    return value;
}

const YamlMember* Section::find_like(std::string_view example) {
    const KeyRow& wanted = row(table_, example);
    for (const YamlMember& m : value_.members)
        if (row_of(table_, m.key.text) == &wanted) {
            asked_.push_back(m.key.text);
            return &m;
        }
    return nullptr;
}

bool Section::has(std::string_view key) const {
    row(table_, key);
    return member(key) != nullptr;
}

bool Section::set(double& target, std::string_view key, Range range) {
    const YamlValue* value = find(key);
    const Quantity quantity = number_shape(table_, key).quantity;
    return value && read_number(target, *value, path(key), quantity, range, problems_);
}

bool Section::set(double& target, std::string_view key) {
    return set(target, key, number_shape(table_, key).range);
}

bool Section::set(float& target, std::string_view key) {
    double number = 0;
    if (!set(number, key)) return false;
    target = static_cast<float>(number);
    return true;
}

bool Section::set(int& target, std::string_view key, Range range) {
    const YamlValue* value = find(key);
    double number = 0;
    if (!value || !read_whole(number, *value, path(key), range, problems_)) return false;
    target = static_cast<int>(number);
    return true;
}

bool Section::set(int& target, std::string_view key) {
    return set(target, key, whole_shape(table_, key).range);
}

bool Section::set(std::uint64_t& target, std::string_view key) {
    const YamlValue* value = find(key);
    double number = 0;
    if (!value || !read_whole(number, *value, path(key), whole_shape(table_, key).range, problems_))
        return false;
    target = static_cast<std::uint64_t>(number);
    return true;
}

bool Section::set_numbers(std::span<double> targets, std::string_view key) {
    const YamlValue* value = find(key);
    const Taken& shape = shape_for(
        table_, key,
        [&](const Taken& t) {
            return t.form == Form::numbers && t.count == static_cast<int>(targets.size());
        },
        "list of so many numbers");
    return value && read_numbers(targets, *value, path(key), shape.quantity, shape.range, problems_);
}

bool Section::set(glm::dvec2& target, std::string_view key) {
    std::array<double, 2> v{};
    if (!set_numbers(v, key)) return false;
    target = {v[0], v[1]};
    return true;
}

bool Section::set(glm::dvec3& target, std::string_view key) {
    std::array<double, 3> v{};
    if (!set_numbers(v, key)) return false;
    target = {v[0], v[1], v[2]};
    return true;
}

bool Section::set(std::span<double> targets, std::string_view key, Quantity quantity, Range range) {
    const YamlValue* value = find(key);
    shape_for(
        table_, key,
        [&](const Taken& t) {
            return t.form == Form::numbers && t.quantity == quantity &&
                   (t.count == 0 || t.count == static_cast<int>(targets.size()));
        },
        "list of numbers of this quantity");
    return value && read_numbers(targets, *value, path(key), quantity, range, problems_);
}

bool Section::set(std::string& target, std::string_view key) {
    const YamlValue* value = find(key);
    if (!value) return false;
    if (value->shape != Shape::scalar || value->text.empty()) {
        problem(key, "found " + found(*value) + ", expected a word or a phrase");
        return false;
    }
    target = value->text;
    return true;
}

bool Section::set_word(size_t& target, std::string_view key) {
    const std::vector<std::string> words = words_of(table_, key);
    std::string word;
    if (!set(word, key)) return false;
    const auto at = std::find(words.begin(), words.end(), word);
    if (at == words.end()) {
        problem(key, fmt::format("found {}, expected one of {}{}", quoted(word), fmt::join(words, ", "),
                                 did_you_mean(word, words)));
        return false;
    }
    target = static_cast<size_t>(at - words.begin());
    return true;
}

void Section::problem(std::string_view key, std::string text) {
    const YamlMember* m = member(key);
    problems_.add(m ? m->value : value_, path(key), std::move(text));
}

void Section::finish() {
    for (const YamlMember& m : value_.members) {
        const std::string& key = m.key.text;
        if (holds(asked_, key)) continue;
        const std::vector<std::string> known = known_keys(table_);
        if (row_of(table_, key))
            problems_.add(m.key, path(key),
                          fmt::format("found {}, which does not go with the other keys here, expected one "
                                      "of {}",
                                      quoted(key), fmt::join(asked_, ", ")));
        else
            problems_.add(m.key, path(key),
                          fmt::format("found the unknown key {}, expected one of {}{}", quoted(key),
                                      fmt::join(known, ", "), did_you_mean(key, known)));
    }
}

std::string Section::path(std::string_view key) const {
    if (path_.empty() || key.empty()) return path_ + printable(key);
    return path_ + '.' + printable(key);
}

void set_unique_name(Section& section, std::string& name, std::vector<std::string>& taken) {
    if (!section.require("name", "a name")) return;
    if (!section.set(name, "name")) return;
    if (std::find(taken.begin(), taken.end(), name) != taken.end())
        section.problem("name", "found " + quoted(name) + " again, expected a name of its own");
    taken.push_back(name);
}

}  // namespace rakelight
