#include "scene/light/photometric_words.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <limits>

namespace rakelight {

namespace {

constexpr std::string_view kBetween = " \t,\f\v";
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

bool read_whole(std::string_view text, double& value) {
    if (text.starts_with('+') && text.size() > 1 && text[1] != '-') text.remove_prefix(1);
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size() && std::isfinite(value);
}

}  // namespace

std::vector<PhotometricLine> photometric_lines(std::string_view text) {
    std::vector<PhotometricLine> lines;
    for (int number = 1; !text.empty(); ++number) {
        const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
        const std::string_view line = text.substr(0, end);
        // The substitute character of old systems marks the end of a file.
        if (line.starts_with('\x1a')) break;
        lines.push_back({line.substr(0, line.find_last_not_of(" \t") + 1), number});
        const bool two = text.substr(end).starts_with("\r\n");
        text.remove_prefix(std::min(end + (two ? 2 : 1), text.size()));
    }
    return lines;
}

PhotometricNumbers::PhotometricNumbers(const std::vector<PhotometricLine>& lines, std::size_t first,
                                       const std::string& file, ProblemList& problems)
    : file_(file), problems_(problems) {
    for (; first < lines.size(); ++first) {
        const auto& [text, number] = lines[first];
        for (std::size_t at = 0;;) {
            at = text.find_first_not_of(kBetween, at);
            if (at == text.npos) break;
            const std::size_t end = std::min(text.find_first_of(kBetween, at), text.size());
            const std::string_view word = text.substr(at, end - at);
            double value = kNone;
            if (!read_whole(word, value)) {
                problems.add(Place{file, number, static_cast<int>(at) + 1}, "",
                             "found " + rakelight::quoted(word) + ", expected a number");
                value = kNone;
            }
            values_.push_back(value);
            where_.push_back({number, static_cast<int>(at) + 1});
            at = end;
            end_ = {number, static_cast<int>(end) + 1};
        }
    }
    if (values_.empty() && !lines.empty()) end_.line = lines.back().number;
}

Place PhotometricNumbers::place(std::size_t index) const {
    const Where where = index < where_.size() ? where_[index] : end_;
    return {file_, where.line, where.column};
}

double PhotometricNumbers::take(const std::string& what) {
    if (at_ < values_.size()) return values_[at_++];
    if (!short_) problems_.add(place(at_), "", "found the end of the file, expected " + what);
    short_ = true;
    return kNone;
}

double PhotometricNumbers::take(const std::string& what, Range range, bool whole) {
    const double value = take(what);
    if (std::isnan(value)) return value;
    if (value >= range.low && value <= range.high && (!whole || value == std::floor(value))) return value;
    problem_with_last(fmt::format("found {}, expected {}: {}{} to {}", number_text(value), what,
                                  whole ? "a whole number, " : "", number_text(range.low),
                                  number_text(range.high)));
    return kNone;
}

void PhotometricNumbers::problem(std::size_t index, const std::string& text) {
    problems_.add(place(index), "", text);
}

void PhotometricNumbers::finish(const std::string& expected) {
    if (left() > 0)
        problems_.add(place(at_), "", fmt::format("found {} more numbers, expected {}", left(), expected));
}

}  // namespace rakelight
