#include "output/board/choice_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "scene/keys/keys.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

constexpr std::array kOneWord{"grout", "bed", "joint", "recess", "finish", "light", "lamps", "distance"};

void check_lamps(Section& in, std::string_view key, const std::vector<std::string>& names,
                 const Layout& layout) {
    const std::vector<std::string> known = light_names(layout);
    for (const std::string& name : names)
        if (std::find(known.begin(), known.end(), name) == known.end())
            in.problem(key, fmt::format("found the unknown lamp {}, expected one of {}{}", quoted(name),
                                        fmt::join(known, ", "), did_you_mean(name, known)));
}

std::vector<std::string> words_of(const YamlValue& value) {
    std::vector<std::string> words;
    if (value.shape == Shape::scalar) words.push_back(value.text);
    for (const YamlValue& item : value.items) words.push_back(item.text);
    return words;
}

// What a choice says by one word; the label it gets from it.
std::string take_word(Section& in, std::string_view key, const YamlValue& value, BoardChoice& choice,
                      const Layout& layout) {
    if (key == "lamps") {
        choice.lamps = words_of(value);
        if (choice.lamps->empty()) in.problem(key, "found no lamps, expected at least one");
        check_lamps(in, key, *choice.lamps, layout);
        return fmt::format("{}", fmt::join(*choice.lamps, " + "));
    }
    if (value.shape != Shape::scalar) {
        in.problem(key, "found " + found(value) + ", expected a word or a number");
        return {};
    }
    if (key == "distance") {
        double mm = 0;
        if (read_number(mm, value, in.path(key), Quantity::length_mm, range_of(keys::choice, "distance"),
                        in.problems()))
            choice.distance_m = mm / 1000;
        return fmt::format("seen from {:.3g} m", mm / 1000);
    }
    if (key == "grout") choice.grout = value;
    if (key == "bed") choice.bed = value;
    if (key == "joint") choice.joint = value;
    if (key == "recess") choice.recess = value;
    if (key == "light") choice.light = value;
    if (key == "finish" && value.text != "cured" && value.text != "unsealed") choice.finish = value;
    if (key == "grout") return value.text == "none" ? "ungrouted" : value.text;
    if (key == "finish" || key == "light") return value.text;
    const bool bare = value.text.find_first_not_of("0123456789.") == std::string::npos;
    return fmt::format("{} {}{}", key, value.text, bare ? " mm" : "");
}

std::vector<KeyChange> changes_of(Section& in, std::string_view key) {
    std::vector<KeyChange> changes;
    const YamlValue* value = in.find(key);
    if (!value) return changes;
    if (value->shape != Shape::mapping)
        in.problem(key, "found " + found(*value) + ", expected a mapping (key: value)");
    for (const YamlMember& m : value->members) changes.push_back({m.key, m.value});
    return changes;
}

void add_label(std::string& label, const std::string& more) {
    if (!label.empty() && !more.empty()) label += ", ";
    label += more;
}

BoardChoice read_choice(Section& in, const Layout& layout) {
    BoardChoice choice;
    choice.place = in.place();
    choice.key = in.path("");
    std::string usual;
    for (const char* key : kOneWord)
        if (const YamlValue* value = in.find(key))
            add_label(usual, take_word(in, key, *value, choice, layout));
    choice.set = changes_of(in, "set");
    choice.swap = changes_of(in, "swap");
    for (const KeyChange& c : choice.swap) add_label(usual, c.value.text + " for " + c.path.text);
    for (const KeyChange& c : choice.set)
        add_label(usual, c.path.text.substr(c.path.text.rfind('.') + 1) + " " + c.value.text);
    choice.label = usual.empty() ? "as it is" : usual;
    in.set(choice.label, "label");
    return choice;
}

// `columns: {grout: [white, sand]}`: one word varied by a list.
void read_word_list(Section& board, std::string_view key, const YamlValue& value,
                    std::vector<BoardChoice>& choices, const Layout& layout) {
    Section in(value, board.path(key), keys::choices, board.problems());
    if (value.members.size() != 1) {
        board.problem(key, fmt::format("found {} keys, expected one whose choices are listed, or a list of "
                                       "choices",
                                       value.members.size()));
        return;
    }
    for (const char* word : kOneWord) {
        const YamlValue* list = in.find(word);
        if (!list) continue;
        if (list->shape != Shape::list) {
            in.problem(word, "found " + found(*list) + ", expected a list of choices");
            return;
        }
        for (std::size_t i = 0; i < list->items.size(); ++i) {
            BoardChoice choice;
            choice.place = board.problems().place_of(list->items[i]);
            choice.key = fmt::format("{}[{}]", in.path(word), i + 1);
            choice.label = take_word(in, word, list->items[i], choice, layout);
            choices.push_back(std::move(choice));
        }
    }
    in.finish();
}

}  // namespace

void read_choices(Section& board, std::string_view key, std::vector<BoardChoice>& choices,
                  const Layout& layout) {
    const YamlValue* value = board.find(key);
    if (value && value->shape == Shape::mapping)
        read_word_list(board, key, *value, choices, layout);
    else if (value)
        for_each_item(board, key, keys::choice,
                      [&](Section& in) { choices.push_back(read_choice(in, layout)); });
    const bool listed = value && (value->shape == Shape::list || value->members.size() == 1);
    if (listed && choices.empty() && board.problems().empty())
        board.problem(key, "found no choices, expected at least one");
    for (std::size_t i = 0; i < choices.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (choices[i].label == choices[k].label) {
                board.problems().add(choices[i].place, choices[i].key,
                                     fmt::format("found the label {} again, expected one of its own; it is "
                                                 "also at line {}",
                                                 quoted(choices[i].label), choices[k].place.line));
                break;
            }
    if (choices.empty()) choices.push_back({.place = board.place(), .key = board.path(key)});
}

}  // namespace rakelight
