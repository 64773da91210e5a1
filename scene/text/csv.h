// Comma-separated values after RFC 4180: quotes round cells that need them, doubled inside. On reading also
// what spreadsheets make of it: a byte order mark, plain line feeds, semicolons or tabs between cells.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rakelight {

struct CsvCell {
    std::string text;
    int line = 0;    ///< of its first character, from 1
    int column = 0;  ///< in bytes, from 1
};

/// Reads one record after another. The text must outlive the reader.
class CsvReader {
  public:
    explicit CsvReader(std::string_view text);

    /// The next record that is not an empty line. False at the end.
    bool next(std::vector<CsvCell>& cells);
    /// Why reading stopped before the end of the text, with the place of the cell; empty when all is well.
    const std::string& problem() const { return problem_; }
    int line() const { return line_; }
    int column() const { return static_cast<int>(at_ - line_start_) + 1; }

  private:
    bool read_cell(CsvCell& cell);
    void end_line();

    std::string_view text_;
    std::size_t at_ = 0;
    std::size_t line_start_ = 0;
    int line_ = 1;
    char between_ = ',';
    std::string problem_;
};

/// Appends a cell, in quotes where they are needed. What a spreadsheet would take for a formula, a name that
/// begins with = + - @, gets an apostrophe in front, which keeps it a text there.
void append_csv(std::string& out, std::string_view cell);

/// The name that `append_csv` wrote into a cell.
std::string_view csv_name(std::string_view cell);

}  // namespace rakelight
