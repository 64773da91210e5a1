#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scene/pieces/piece_rows.h"
#include "scene/pieces/piece_table.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

using Json = nlohmann::json;

std::string short_text(const Json& value) {
    if (value.is_string()) return rakelight::quoted(value.get<std::string>());
    return rakelight::quoted(value.dump(-1, ' ', false, Json::error_handler_t::replace));
}

// The value of a key that a table must have, in words.
std::string found(const Json& all, const char* key, const char* none) {
    return all.is_object() && all.contains(key) ? short_text(all[key]) : none;
}

constexpr std::size_t kMostShown = 20;

class RowReader {
  public:
    RowReader(const std::string& file, ProblemList& problems) : file_(file), problems_(problems) {}

    void list(const Json& all, const std::string& name, std::vector<PieceRow>& rows) {
        if (!all.contains(name)) return;
        const Json& items = all[name];
        if (!items.is_array()) return complain(name, "found " + short_text(items) + ", expected a list");
        for (std::size_t i = 0; i < items.size(); ++i)
            rows.push_back(row(items[i], fmt::format("{}[{}]", name, i + 1)));
    }

    void complain(std::string key, std::string text) {
        problems_.add(Place{file_, 0, 0}, std::move(key), std::move(text));
    }

  private:
    PieceRow row(const Json& item, const std::string& path) {
        PieceRow row;
        row.place = {file_, 0, 0};
        row.key = path;
        if (!item.is_object()) {
            complain(path, "found " + short_text(item) + ", expected a mapping");
            return row;
        }
        for (const auto& [key, value] : item.items()) member(row, path + '.' + key, key, value);
        return row;
    }

    void member(PieceRow& row, const std::string& path, const std::string& key, const Json& value) {
        const auto& known = piece_columns();
        if (std::find(known.begin(), known.end(), key) == known.end())
            return complain(
                path, fmt::format("found the unknown key {}, expected one of {}{}", rakelight::quoted(key),
                                  fmt::join(known, ", "), did_you_mean(key, known)));
        for (auto [name, target] :
             {std::pair{"field", &row.field}, {"material", &row.material}, {"form", &row.form}})
            if (key == name) {
                if (value.is_string())
                    *target = value.get<std::string>();
                else
                    complain(path, "found " + short_text(value) + ", expected a name");
            }
        if (key == "form")
            if (std::string problem = form_problem(row.form); !problem.empty())
                complain(path, std::move(problem));
        if (key == "number") {
            if (value.is_number_unsigned() && value.get<std::uint64_t>() - 1 < 0xffffffffu)
                row.number = value.get<std::uint32_t>();
            else
                complain(path, "found " + short_text(value) + ", expected a whole number from 1");
        }
        if (key == "seed") {
            if (value.is_string()) row.seed = seed_from(value.get<std::string>());
            if (!row.seed)
                complain(path, "found " + short_text(value) + ", expected s and 16 hexadecimal digits");
        }
        if (key == "outline_mm") outline(row, path, value);
        for (const NumberColumn& column : number_columns())
            if (key == column.name) {
                std::string problem = "found " + short_text(value) + ", expected a number";
                if (value.is_number()) problem = number_problem(column, value.get<double>());
                if (problem.empty())
                    row.*column.member = value.get<double>();
                else
                    complain(path, std::move(problem));
            }
    }

    void outline(PieceRow& row, const std::string& path, const Json& value) {
        if (!value.is_array())
            return complain(path, "found " + short_text(value) + ", expected a list of [x, y]");
        for (std::size_t i = 0; i < value.size(); ++i) {
            const Json& p = value[i];
            if (!p.is_array() || p.size() != 2 || !p[0].is_number() || !p[1].is_number())
                return complain(fmt::format("{}[{}]", path, i + 1),
                                "found " + short_text(p) + ", expected [x, y]");
            row.outline_mm.emplace_back(p[0].get<double>(), p[1].get<double>());
        }
    }

    const std::string& file_;
    ProblemList& problems_;
};

}  // namespace

std::vector<PieceRow> piece_rows_from_json(std::string_view text, const std::string& file,
                                           ProblemList& problems) {
    std::vector<PieceRow> rows;
    Json all;
    try {
        all = Json::parse(text);
    } catch (const Json::parse_error& e) {
        const std::string_view before = text.substr(0, std::min(e.byte > 0 ? e.byte - 1 : 0, text.size()));
        const auto line = std::count(before.begin(), before.end(), '\n');
        const std::size_t last = before.rfind('\n');
        const std::size_t column = last == std::string_view::npos ? before.size() : before.size() - last - 1;
        problems.add(Place{file, static_cast<int>(line) + 1, static_cast<int>(column) + 1}, "",
                     before.size() == text.size()
                         ? "found the end of the file, expected a piece table in JSON"
                         : fmt::format("found no JSON at {}, expected a piece table in JSON",
                                       rakelight::quoted(text.substr(before.size(), kMostShown))));
        return rows;
    } catch (const Json::exception&) {
        problems.add(Place{file, 0, 0}, "", "found a number too large, expected JSON of a piece table");
        return rows;
    }
    RowReader reader(file, problems);
    if (!all.is_object() || !all.contains("format") || all["format"] != kPieceTableFormat) {
        reader.complain("format", fmt::format("found {}, expected \"{}\"", found(all, "format", "no format"),
                                              kPieceTableFormat));
        return rows;
    }
    if (!all.contains("version") || all["version"] != kPieceTableVersion) {
        reader.complain("version", fmt::format("found {}, expected {}", found(all, "version", "none"),
                                               kPieceTableVersion));
        return rows;
    }
    reader.list(all, "stones", rows);
    reader.list(all, "pieces", rows);
    return rows;
}

}  // namespace rakelight
