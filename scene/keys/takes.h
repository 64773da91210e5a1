// What a row of a table of keys says that its key takes, in few words: `length(0, 50) | lengths(2, 0, 50)`.
#pragma once

#include "scene/text/key_table.h"

namespace rakelight::keys {

/// Anywhere near a panel, and anywhere in a room, mm.
inline constexpr Range kNearPanel_mm{-20'000, 20'000};
inline constexpr Range kAnywhere_mm{-100'000, 100'000};

constexpr Takes one(const Taken& taken) {
    return {{taken}, 1};
}

constexpr Takes operator|(Takes a, const Takes& b) {
    for (const Taken& taken : b.all()) a.shapes[a.count++] = taken;
    return a;
}

constexpr Takes measure(Quantity quantity, double low, double high) {
    return one({.form = Form::number, .quantity = quantity, .range = {low, high}});
}
constexpr Takes number(double low, double high) {
    return measure(Quantity::plain, low, high);
}
constexpr Takes length(double low, double high) {
    return measure(Quantity::length_mm, low, high);
}
constexpr Takes angle(double low, double high) {
    return measure(Quantity::angle_deg, low, high);
}
constexpr Takes share(double low, double high) {
    return measure(Quantity::share, low, high);
}
constexpr Takes mass(double low, double high) {
    return measure(Quantity::mass_g, low, high);
}
constexpr Takes whole(double low, double high) {
    return one({.form = Form::whole, .range = {low, high}});
}
/// Any whole number that a double holds exactly.
constexpr Takes seed() {
    return whole(0, 9007199254740992.0);
}

/// A list of so many numbers; 0 = as many as it takes.
constexpr Takes measures(int count, Quantity quantity, double low, double high) {
    return one({.form = Form::numbers, .quantity = quantity, .range = {low, high}, .count = count});
}
constexpr Takes numbers(int count, double low, double high) {
    return measures(count, Quantity::plain, low, high);
}
constexpr Takes lengths(int count, double low, double high) {
    return measures(count, Quantity::length_mm, low, high);
}
constexpr Takes lengths(int count, Range range) {
    return lengths(count, range.low, range.high);
}

constexpr Takes text(std::string_view noun) {
    return one({.form = Form::text, .noun = noun});
}
constexpr Takes text_like(std::string_view regex, std::string_view noun) {
    return one({.form = Form::pattern, .noun = noun, .regex = regex});
}
constexpr Takes word(std::string_view listed) {
    return one({.form = Form::word, .words = {listed}});
}
constexpr Takes word(std::vector<std::string> (*of)()) {
    return one({.form = Form::word, .words = {{}, of}});
}

constexpr Takes mapping(const KeyTable& table) {
    return one({.form = Form::mapping, .table = &table});
}
/// A list of mappings.
constexpr Takes list(const KeyTable& table, int least = 0, int most = 0) {
    return one({.form = Form::list, .table = &table, .least = least, .most = most});
}
/// A list of other things; `item` has to stay where it is.
constexpr Takes list_of(const Takes& item, int least = 0, int most = 0) {
    return one({.form = Form::list, .item = &item, .least = least, .most = most});
}

/// A list of pairs [nm, value].
constexpr Takes reading(Range nm, Quantity quantity, double low, double high) {
    return one({.form = Form::reading, .quantity = quantity, .range = {low, high}, .first = nm});
}
constexpr Takes anything(std::string_view noun) {
    return one({.form = Form::anything, .noun = noun});
}

/// A row that stands for any name.
constexpr KeyRow any(std::string_view name, const Takes& takes, std::string_view says) {
    return {.key = name, .takes = takes, .usual = "", .says = says, .stands_for = true};
}
/// A row that stands for any of some words.
constexpr KeyRow each_of(std::string_view name, WordSource words, const Takes& takes, std::string_view usual,
                         std::string_view says) {
    return {.key = name, .takes = takes, .usual = usual, .says = says, .stands_for = true, .names = words};
}

/// The rows of two tables, one after another.
template <std::size_t n, std::size_t m>
constexpr std::array<KeyRow, n + m> both(const std::array<KeyRow, n>& a, const std::array<KeyRow, m>& b) {
    std::array<KeyRow, n + m> rows{};
    for (std::size_t i = 0; i < n; ++i) rows[i] = a[i];
    for (std::size_t i = 0; i < m; ++i) rows[n + i] = b[i];
    return rows;
}

using How = KeyRule::How;

}  // namespace rakelight::keys
