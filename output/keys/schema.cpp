#include "output/keys/schema.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "output/keys/words.h"
#include "scene/keys/keys.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

Json takes_schema(const Takes& takes);

// A name of a section without blanks, which a reference may not have.
std::string part_name(const KeyTable& table) {
    std::string name(table.name);
    std::replace(name.begin(), name.end(), ' ', '-');
    return name;
}

Json ref(const KeyTable& table) {
    return {{"$ref", "#/$defs/" + part_name(table)}};
}

// A bare number in its range, or a text that the reader of units takes, whose range nobody sees here.
Json number_schema(Quantity quantity, Range range, const char* type = "number") {
    return {{"anyOf",
             {{{"type", type}, {"minimum", range.low}, {"maximum", range.high}},
              {{"type", "string"}, {"pattern", measure_pattern(quantity)}}}}};
}

Json numbers_schema(const Taken& t) {
    Json j{{"type", "array"}, {"items", number_schema(t.quantity, t.range)}};
    if (t.count == 0) return j;
    j["minItems"] = t.count;
    j["maxItems"] = t.count;
    return j;
}

Json list_schema(const Taken& t) {
    Json j{{"type", "array"}, {"items", t.table ? ref(*t.table) : takes_schema(*t.item)}};
    if (t.least > 0) j["minItems"] = t.least;
    if (t.most > 0) j["maxItems"] = t.most;
    return j;
}

Json reading_schema(const Taken& t) {
    return {{"type", "array"},
            {"prefixItems", {number_schema(Quantity::plain, t.first), number_schema(t.quantity, t.range)}},
            {"minItems", 2},
            {"maxItems", 2}};
}

Json shape_schema(const Taken& t) {
    switch (t.form) {
        case Form::number:
            return number_schema(t.quantity, t.range);
        case Form::whole:
            return number_schema(t.quantity, t.range, "integer");
        case Form::numbers:
            return numbers_schema(t);
        case Form::reading:
            return reading_schema(t);
        case Form::text:
            return {{"type", {"string", "number", "boolean"}}, {"minLength", 1}};
        case Form::word:
            return {{"enum", list_of_words(t.words)}};
        case Form::pattern:
            return {{"type", "string"}, {"pattern", t.regex}};
        case Form::mapping:
            return ref(*t.table);
        case Form::list:
            return list_schema(t);
        case Form::anything:
            return Json::object();
    }
    return Json::object();
}

Json takes_schema(const Takes& takes) {
    if (takes.count == 1) return shape_schema(takes.shapes[0]);
    Json any = Json::array();
    for (const Taken& t : takes.all()) any.push_back(shape_schema(t));
    return {{"anyOf", any}};
}

Json row_schema(const KeyRow& row) {
    Json j = takes_schema(row.takes);
    const std::string usual = usual_text(row);
    j["description"] =
        fmt::format("{}\n{}{}", row.says, takes_text(row.takes), usual.empty() ? "" : "; " + usual);
    return j;
}

// The pattern of the keys that a row stands for.
std::string names_pattern(const KeyRow& row) {
    if (!row.names.empty()) {
        const auto names = list_of_words(row.names);
        return fmt::format("^({})$", fmt::join(names, "|"));
    }
    if (row.begins.empty()) return ".";
    return fmt::format("^{}{}", row.begins, measure_pattern(Quantity::length_mm).substr(1));
}

Json has(const KeyTable& table, const std::string& key) {
    const KeyRow* row = row_of(table, key);
    if (row && row->stands_for)
        return {{"not", {{"propertyNames", {{"not", {{"pattern", names_pattern(*row)}}}}}}}};
    return {{"required", Json::array({key})}};
}

void add_rule(Json& all, const KeyTable& table, const KeyRule& rule) {
    const std::vector<std::string> keys = words_of(rule.keys);
    Json each = Json::array();
    for (const std::string& key : keys) each.push_back(has(table, key));
    switch (rule.how) {
        case KeyRule::How::one:
            all.push_back({{"oneOf", each}});
            break;
        case KeyRule::How::some:
            all.push_back({{"anyOf", each}});
            break;
        case KeyRule::How::at_most_one:
            for (std::size_t i = 0; i < each.size(); ++i)
                for (std::size_t k = i + 1; k < each.size(); ++k)
                    all.push_back({{"not", {{"allOf", {each[i], each[k]}}}}});
            break;
        case KeyRule::How::all_or_none:
            all.push_back({{"anyOf", {{{"allOf", each}}, {{"not", {{"anyOf", each}}}}}}});
            break;
    }
}

Json table_schema(const KeyTable& table) {
    Json properties = Json::object(), patterns = Json::object(), required = Json::array(),
         all = Json::array();
    for (const KeyRow& row : table.rows) {
        if (row.stands_for)
            patterns[names_pattern(row)] = row_schema(row);
        else
            properties[std::string(row.key)] = row_schema(row);
        if (row.required()) required.push_back(row.key);
    }
    for (const KeyRule& rule : table.rules) add_rule(all, table, rule);
    Json j{{"description", table.says}, {"type", "object"}};
    if (!properties.empty()) j["properties"] = properties;
    if (!patterns.empty()) j["patternProperties"] = patterns;
    j["additionalProperties"] = false;
    if (!required.empty()) j["required"] = required;
    if (!all.empty()) j["allOf"] = all;
    return j;
}

constexpr std::string_view kChanged = " changed";

// The schema of what changes another layout: nothing must be said again, and a key without a value takes that
// of the base away.
Json changed(Json schema) {
    if (schema.is_array())
        for (Json& item : schema) item = changed(item);
    if (!schema.is_object()) return schema;
    schema.erase("required");
    schema.erase("allOf");
    for (auto& [key, value] : schema.items()) {
        if (key == "$ref")
            value = value.get<std::string>() + std::string(kChanged);
        else
            value = changed(value);
        if (key == "properties" || key == "patternProperties")
            for (auto& [name, each] : value.items())
                each = {{"anyOf", Json::array({each, {{"type", "null"}}})}};
    }
    return schema;
}

}  // namespace

std::string layout_schema() {
    Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", "Rakelight layout"}};
    const Json whole = table_schema(keys::layout);
    schema["type"] = "object";
    schema["if"] = {{"required", Json::array({"like"})}};
    schema["then"] = changed(whole);
    schema["else"] = whole;
    Json parts = Json::object();
    for (const KeyTable* table : keys::every_table()) {
        if (table == &keys::layout) continue;
        const Json part = table_schema(*table);
        parts[part_name(*table)] = part;
        parts[part_name(*table) + std::string(kChanged)] = changed(part);
    }
    schema["$defs"] = parts;
    return schema.dump(1) + '\n';
}

}  // namespace rakelight
