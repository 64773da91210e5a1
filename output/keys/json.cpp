#include "output/keys/json.h"

#include <nlohmann/json.hpp>

#include "output/keys/words.h"
#include "output/system/program.h"
#include "scene/keys/keys.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kKeysVersion = 1;

std::string_view word_of(Form form) {
    switch (form) {
        case Form::number:
            return "number";
        case Form::whole:
            return "whole number";
        case Form::numbers:
            return "list of numbers";
        case Form::reading:
            return "pair of nm and number";
        case Form::text:
            return "text";
        case Form::word:
            return "word";
        case Form::pattern:
            return "text of a fixed form";
        case Form::mapping:
            return "mapping";
        case Form::list:
            return "list";
        case Form::anything:
            return "anything";
    }
    return "";
}

std::string unit_of(Quantity quantity) {
    if (quantity == Quantity::share) return "share";
    const std::string_view suffix = unit_suffix(quantity);
    return std::string(suffix.substr(suffix.empty() ? 0 : 1));
}

Json takes_json(const Takes& takes) {
    Json shapes = Json::array();
    for (const Taken& t : takes.all()) {
        Json j{{"form", word_of(t.form)}};
        const bool number = t.form == Form::number || t.form == Form::whole || t.form == Form::numbers ||
                            t.form == Form::reading;
        if (number) {
            if (const std::string unit = unit_of(t.quantity); !unit.empty()) j["unit"] = unit;
            j["least"] = t.range.low;
            j["most"] = t.range.high;
        }
        if (t.count > 0) j["count"] = t.count;
        if (!t.noun.empty()) j["names"] = t.noun;
        if (!t.words.empty()) j["words"] = list_of_words(t.words);
        if (t.table) j["section"] = t.table->name;
        if (t.item) j["each"] = takes_json(*t.item);
        shapes.push_back(std::move(j));
    }
    return shapes;
}

}  // namespace

std::string keys_in_json() {
    Json sections = Json::array();
    for (const KeyTable* table : keys::every_table()) {
        Json rows = Json::array();
        for (const KeyRow& row : table->rows) {
            Json j{{"key", row.key}, {"meaning", row.says}, {"takes", takes_json(row.takes)}};
            if (row.required())
                j["required"] = true;
            else if (!row.usual.empty())
                j["left_out"] = row.usual;
            if (row.stands_for) j["stands_for_names"] = true;
            rows.push_back(std::move(j));
        }
        Json section{{"section", table->name}, {"meaning", table->says}, {"keys", rows}};
        if (const auto rules = rule_texts(*table); !rules.empty()) section["together"] = rules;
        sections.push_back(std::move(section));
    }
    return Json{{"format", "rakelight keys"},
                {"version", kKeysVersion},
                {"program", kProgram},
                {"sections", sections}}
               .dump(2) +
           '\n';
}

}  // namespace rakelight
