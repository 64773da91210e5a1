#include "output/keys/words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace rakelight {

namespace {

std::string_view noun_of(Quantity quantity) {
    switch (quantity) {
        case Quantity::plain:
            return "number";
        case Quantity::share:
            return "share";
        case Quantity::length_mm:
            return "length";
        case Quantity::mass_g:
            return "mass";
        case Quantity::temperature_k:
        case Quantity::temperature_c:
            return "temperature";
        case Quantity::angle_deg:
            return "angle";
        case Quantity::flux_lm:
            return "luminous flux";
        case Quantity::intensity_cd:
            return "luminous intensity";
        case Quantity::illuminance_lx:
            return "illuminance";
    }
    return "number";
}

std::string with_article(std::string_view noun) {
    const bool vowel = std::string_view("aeiou").find(noun.front()) != std::string_view::npos;
    return fmt::format("{} {}", vowel ? "an" : "a", noun);
}

std::string limits(const Taken& taken) {
    return range_text(taken.quantity, taken.range);
}

std::string numbers_text(const Taken& taken) {
    return fmt::format("a list of {}{}s, {}", taken.count > 0 ? fmt::format("{} ", taken.count) : "",
                       noun_of(taken.quantity), limits(taken));
}

std::string list_text(const Taken& taken) {
    const std::string item =
        taken.table ? fmt::format("a mapping ({})", taken.table->name) : takes_text(*taken.item);
    return fmt::format("a list, each {}", item);
}

std::string shape_text(const Taken& taken) {
    switch (taken.form) {
        case Form::number:
            return fmt::format("{}, {}", with_article(noun_of(taken.quantity)), limits(taken));
        case Form::whole:
            return taken.range.high > 1e12 ? "a whole number" : "a whole number, " + limits(taken);
        case Form::numbers:
            return numbers_text(taken);
        case Form::reading:
            return fmt::format("a pair [nm, {}], {} nm", noun_of(taken.quantity),
                               range_text(Quantity::plain, taken.first));
        case Form::text:
        case Form::pattern:
        case Form::anything:
            return std::string(taken.noun);
        case Form::word:
            return in_a_row(list_of_words(taken.words), "or");
        case Form::mapping:
            return fmt::format("a mapping ({})", taken.table->name);
        case Form::list:
            return list_text(taken);
    }
    return "";
}

}  // namespace

std::string in_a_row(const std::vector<std::string>& words, std::string_view last) {
    if (words.size() < 2) return words.empty() ? "" : words[0];
    const std::vector<std::string> first(words.begin(), words.end() - 1);
    return fmt::format("{} {} {}", fmt::join(first, ", "), last, words.back());
}

std::string takes_text(const Takes& takes) {
    std::string text;
    for (const Taken& taken : takes.all()) text += (text.empty() ? "" : "; or ") + shape_text(taken);
    return text;
}

std::string usual_text(const KeyRow& row) {
    if (row.usual.empty() || row.usual.starts_with(kMust)) return std::string(row.usual);
    return fmt::format("usually {}", row.usual);
}

std::vector<std::string> rule_texts(const KeyTable& table) {
    std::vector<std::string> texts;
    for (const KeyRule& rule : table.rules) {
        const std::vector<std::string> keys = words_of(rule.keys);
        const std::string all = in_a_row(keys, "and");
        switch (rule.how) {
            case KeyRule::How::one:
                texts.push_back(fmt::format("One of {} must be given, and no more than one.", all));
                break;
            case KeyRule::How::at_most_one:
                texts.push_back(fmt::format("No more than one of {}.", all));
                break;
            case KeyRule::How::some:
                texts.push_back(fmt::format("At least one of {} must be given.", all));
                break;
            case KeyRule::How::all_or_none:
                texts.push_back(fmt::format("{} go together.", all));
                break;
        }
    }
    return texts;
}

}  // namespace rakelight
