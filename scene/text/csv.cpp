#include "scene/text/csv.h"

#include <algorithm>
#include <charconv>

namespace rakelight {

CsvReader::CsvReader(std::string_view text) : text_(text) {
    if (text_.starts_with("\xef\xbb\xbf")) at_ = line_start_ = 3;
    const std::string_view heading = text_.substr(at_, text_.find_first_of("\r\n", at_) - at_);
    for (const char c : {';', '\t'})
        if (heading.find(',') == std::string_view::npos && heading.find(c) != std::string_view::npos)
            between_ = c;
}

void CsvReader::end_line() {
    if (text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++at_;
    line_start_ = ++at_;
    ++line_;
}

bool CsvReader::read_cell(CsvCell& cell) {
    cell = {"", line_, column()};
    if (at_ < text_.size() && text_[at_] == '"') {
        for (++at_;; ++at_) {
            if (at_ >= text_.size()) {
                problem_ = "found a quote that is never closed, expected \" at the end of the cell";
                line_ = cell.line;
                return false;
            }
            if (text_[at_] == '"') {
                if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
                ++at_;
            } else if (text_[at_] == '\n') {
                ++line_;
                line_start_ = at_ + 1;
            }
            cell.text += text_[at_];
        }
        ++at_;
        if (at_ < text_.size() && text_[at_] != between_ && text_[at_] != '\r' && text_[at_] != '\n') {
            problem_ = "found more after a closing quote, expected the end of the cell";
            return false;
        }
        return true;
    }
    const std::size_t first = at_;
    while (at_ < text_.size() && text_[at_] != between_ && text_[at_] != '\r' && text_[at_] != '\n') ++at_;
    cell.text = text_.substr(first, at_ - first);
    return true;
}

bool CsvReader::next(std::vector<CsvCell>& cells) {
    while (at_ < text_.size() && (text_[at_] == '\r' || text_[at_] == '\n')) end_line();
    if (at_ >= text_.size() || !problem_.empty()) return false;
    cells.clear();
    for (;;) {
        if (!read_cell(cells.emplace_back())) return false;
        if (at_ >= text_.size()) return true;
        if (text_[at_] != between_) {
            end_line();
            return true;
        }
        ++at_;
    }
}

namespace {

// Whether a spreadsheet would reckon with what follows any apostrophes at the front: a number is no harm.
bool is_formula(std::string_view cell) {
    cell.remove_prefix(std::min(cell.find_first_not_of('\''), cell.size()));
    if (cell.empty() || std::string_view("=+-@\t\r").find(cell.front()) == std::string_view::npos)
        return false;
    double value = 0;
    const std::string_view number = cell.substr(cell.front() == '+' ? 1 : 0);
    const auto [end, error] = std::from_chars(number.begin(), number.end(), value);
    return error != std::errc() || end != number.end();
}

}  // namespace

std::string_view csv_name(std::string_view cell) {
    return cell.starts_with('\'') && is_formula(cell) ? cell.substr(1) : cell;
}

void append_csv(std::string& out, std::string_view name) {
    const std::string cell = (is_formula(name) ? "'" : "") + std::string(name);
    if (cell.find_first_of(",;\t\"\r\n") == std::string_view::npos && !cell.starts_with(' ') &&
        !cell.ends_with(' ')) {
        out += cell;
        return;
    }
    out += '"';
    for (const char c : cell) {
        if (c == '"') out += '"';
        out += c;
    }
    out += '"';
}

}  // namespace rakelight
