// The rows of a piece table as they are written, every cell checked for itself; what they mean together is
// for listed_pieces.h. Columns and keys: piece_table.h.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/model/piece_row.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// A column that holds a number, and the limits of what is taken from it, both allowed.
struct NumberColumn {
    std::string_view name;
    std::optional<double> PieceRow::*member;
    Range range;
};
/// All columns that hold a number, in the order of the table.
std::span<const NumberColumn> number_columns();
/// Every column there is.
const std::vector<std::string>& piece_columns();

/// "found .., expected .." when the value is not within the column's limits, else empty.
std::string number_problem(const NumberColumn& column, double value);
/// A seed as written; none when it is not s and up to 16 hexadecimal digits.
std::optional<std::uint64_t> seed_from(std::string_view text);
/// Reports a form that is not known.
std::string form_problem(const std::string& form);

/// Reads a table of CSV; problems go to the list, with line and column (CSV) or the path of the key (JSON).
std::vector<PieceRow> piece_rows_from_csv(std::string_view text, const std::string& file,
                                          ProblemList& problems);
/// The same of JSON.
std::vector<PieceRow> piece_rows_from_json(std::string_view text, const std::string& file,
                                           ProblemList& problems);

}  // namespace rakelight
