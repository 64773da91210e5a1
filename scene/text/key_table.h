// A table of keys: what a mapping of a layout file may say, a row a key. Reading asks through it
// (yaml_reader.h), so that quantity, range and words stand once; help, manual and schema print it. The rows
// themselves are in scene/keys.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/units.h"

namespace rakelight {

/// Limits of a number in its kept unit, both allowed.
struct Range {
    double low = 0;
    double high = 0;
};

struct KeyTable;
struct Takes;

/// The shapes of values.
enum class Form {
    number,    ///< a number of `quantity` within `range`
    whole,     ///< a whole number within `range`
    numbers,   ///< a list of `count` such numbers; 0 = as many as it takes
    reading,   ///< a pair [nm, value]: a wavelength within `first`, and a number as above
    text,      ///< any word or phrase that is not empty
    word,      ///< one of some words
    pattern,   ///< a text that `regex` (ECMA-262) describes
    mapping,   ///< keys of `table`
    list,      ///< of mappings of `table`, or of `item`
    anything,  ///< whatever the key that it stands for takes
};

/// Words of an enumeration: listed with commas, or as another table of the program has them.
struct WordSource {
    std::string_view listed;
    std::vector<std::string> (*of)() = nullptr;
    bool empty() const { return listed.empty() && !of; }
};
std::vector<std::string> list_of_words(const WordSource& words);

/// One shape that a value may have.
struct Taken {
    Form form{};
    Quantity quantity = Quantity::plain;
    Range range;
    Range first;                      ///< of a reading: its wavelength, nm
    int count = 0;                    ///< of numbers
    std::string_view noun;            ///< of a text or pattern: what it names, "the name of a lamp"
    std::string_view regex;           ///< of a pattern
    WordSource words;                 ///< of a word
    const KeyTable* table = nullptr;  ///< of a mapping, or of the items of a list
    const Takes* item = nullptr;      ///< of a list of other things
    int least = 0, most = 0;          ///< items of a list; most 0 = as many as one likes
};

/// The shapes that a value may have, any of them.
struct Takes {
    std::array<Taken, 4> shapes;
    std::size_t count = 1;
    constexpr std::span<const Taken> all() const { return {shapes.data(), count}; }
};

/// In place of a usual value, of a key that has to be there.
inline constexpr std::string_view kMust = "must be given";

/// A key, or with `stands_for` a key that the artist names: NAME, OPUS, "transmittance at 3 mm".
struct KeyRow {
    std::string_view key;
    Takes takes;
    std::string_view usual;        ///< what holds when it is left out, in words; kMust; empty = nothing
    std::string_view says;         ///< one plain sentence, with unit and direction where they matter
    bool stands_for = false;       ///< it stands for any key that begins with `begins` and is of `names`
    std::string_view begins = {};  ///< empty = any key
    WordSource names = {};         ///< empty = any name
    bool required() const { return usual == kMust; }
};

/// How keys of one mapping go together.
struct KeyRule {
    enum class How { one, at_most_one, some, all_or_none } how;
    std::string_view keys;  ///< with commas
};

struct KeyTable {
    std::string_view name;  ///< where it stands: "fields", "lamps.barn doors"; "layout" for the file itself
    std::string_view says;  ///< one plain sentence
    std::span<const KeyRow> rows;
    std::span<const KeyRule> rules = {};
};

/// The words of a text parted by ", ".
std::vector<std::string> words_of(std::string_view listed);

/// The row of a key, that of its own name first; null when there is none.
const KeyRow* row_of(const KeyTable& table, std::string_view key);

/// The same. \throws std::logic_error when there is none: reading asks for a key that no table has.
const KeyRow& row(const KeyTable& table, std::string_view key);

/// The first shape of that form, or null.
const Taken* shape_of(const KeyRow& row, Form form);

/// Limits of a key that takes a number, numbers or a whole number. \throws std::logic_error when it takes
/// none.
Range range_of(const KeyTable& table, std::string_view key);

/// Words of a key that takes one, or a list of them. \throws std::logic_error.
std::vector<std::string> words_of(const KeyTable& table, std::string_view key);

/// Every word that the table knows for a key, for suggestions.
std::vector<std::string> known_keys(const KeyTable& table);

}  // namespace rakelight
