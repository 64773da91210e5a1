#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "scene/pieces/piece_rows.h"
#include "scene/text/csv.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

// Takes a number from the front of a text. False when there is none, or it is endless.
bool take_number(std::string_view& text, double& value) {
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || !std::isfinite(value)) return false;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return true;
}

/// Reads one record after another into rows.
class RowReader {
  public:
    RowReader(const std::string& file, ProblemList& problems) : file_(file), problems_(problems) {}

    void heading(const std::vector<CsvCell>& cells) {
        for (const CsvCell& cell : cells) {
            const std::string name(trimmed(cell.text));
            const auto& known = piece_columns();
            if (std::find(known.begin(), known.end(), name) == known.end())
                complain(
                    cell, "",
                    fmt::format("found the unknown column {}, expected one of {}{}", rakelight::quoted(name),
                                fmt::join(known, ", "), did_you_mean(name, known)));
            else if (std::find(columns_.begin(), columns_.end(), name) != columns_.end())
                complain(cell, "",
                         "found the column " + rakelight::quoted(name) + " again, expected it once");
            columns_.push_back(name);
        }
        for (const char* needed : {"field", "material", "outline_mm"})
            if (std::find(columns_.begin(), columns_.end(), needed) == columns_.end())
                complain(cells.front(), needed, "found no such column, expected it in the first line");
    }

    PieceRow row(const std::vector<CsvCell>& cells) {
        PieceRow row;
        row.place = {file_, cells.front().line, 1};
        if (cells.size() != columns_.size())
            complain(cells.front(), "",
                     fmt::format("found {} cells, expected {} as in the first line", cells.size(),
                                 columns_.size()));
        for (std::size_t i = 0; i < std::min(cells.size(), columns_.size()); ++i)
            if (const std::string_view text = trimmed(cells[i].text); !text.empty())
                cell(row, cells[i], columns_[i], text);
        return row;
    }

  private:
    void complain(const CsvCell& at, std::string key, std::string text) {
        problems_.add(Place{file_, at.line, at.column}, std::move(key), std::move(text));
    }

    void cell(PieceRow& row, const CsvCell& at, const std::string& column, std::string_view text) {
        if (column == "field") row.field = csv_name(text);
        if (column == "material") row.material = csv_name(text);
        if (column == "form") {
            row.form = text;
            if (std::string problem = form_problem(row.form); !problem.empty())
                complain(at, column, std::move(problem));
        }
        if (column == "number") {
            std::uint32_t number = 0;
            const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
            if (error != std::errc() || end != text.data() + text.size() || number == 0)
                complain(at, column,
                         "found " + rakelight::quoted(text_of(text)) + ", expected a whole number from 1");
            row.number = number;
        }
        if (column == "seed") {
            row.seed = seed_from(text);
            if (!row.seed)
                complain(
                    at, column,
                    "found " + rakelight::quoted(text_of(text)) + ", expected s and 16 hexadecimal digits");
        }
        if (column == "outline_mm") row.outline_mm = outline(at, text);
        for (const NumberColumn& number : number_columns())
            if (column == number.name) row.*number.member = number_cell(at, number, text);
    }

    std::optional<double> number_cell(const CsvCell& at, const NumberColumn& column, std::string_view text) {
        std::string_view rest = text;
        double value = 0;
        std::string problem;
        if (!take_number(rest, value) || !rest.empty())
            problem = "found " + rakelight::quoted(text_of(text)) + ", expected a number" +
                      (text.find(',') != std::string_view::npos ? " with a decimal point" : "");
        else
            problem = number_problem(column, value);
        if (problem.empty()) return value;
        complain(at, std::string(column.name), std::move(problem));
        return std::nullopt;
    }

    std::vector<glm::dvec2> outline(const CsvCell& at, std::string_view text) {
        std::vector<glm::dvec2> points;
        for (std::string_view rest = text; !rest.empty();) {
            glm::dvec2 p;
            const std::string_view point = trimmed(rest.substr(0, rest.find(';')));
            const bool good = take_number(rest, p.x) && take_number(rest, p.y);
            rest = trimmed(rest);
            if (!good || (!rest.empty() && rest.front() != ';')) {
                complain(at, "outline_mm",
                         fmt::format("found {} at point {}, expected x y;x y;.. in mm with decimal points",
                                     rakelight::quoted(point), points.size() + 1));
                return {};
            }
            points.push_back(p);
            if (!rest.empty()) rest = trimmed(rest.substr(1));
        }
        return points;
    }

    static std::string text_of(std::string_view text) { return std::string(text); }

    const std::string& file_;
    ProblemList& problems_;
    std::vector<std::string> columns_;
};

}  // namespace

std::vector<PieceRow> piece_rows_from_csv(std::string_view text, const std::string& file,
                                          ProblemList& problems) {
    std::vector<PieceRow> rows;
    CsvReader csv(text);
    RowReader reader(file, problems);
    std::vector<CsvCell> cells;
    if (!csv.next(cells)) {
        problems.add(Place{file, 0, 0}, "", "found an empty table, expected a line of column names and rows");
        return rows;
    }
    reader.heading(cells);
    if (!problems.empty()) return rows;
    while (csv.next(cells)) rows.push_back(reader.row(cells));
    if (!csv.problem().empty()) problems.add(Place{file, csv.line(), csv.column()}, "", csv.problem());
    return rows;
}

}  // namespace rakelight
