// A table of the README, for tests that hold it against a table of the program.
#pragma once

#include <array>
#include <fstream>
#include <iterator>
#include <map>
#include <string>

namespace rakelight {

inline std::string readme() {
    std::ifstream file(RAKELIGHT_SCENES "/../README.md");
    return {std::istreambuf_iterator<char>(file), {}};
}

/// The rows of the table under a heading line, second and third cell by first; marks round the first
/// (`*word*`) taken off.
inline std::map<std::string, std::array<std::string, 2>> table_in_readme(const std::string& heading) {
    std::map<std::string, std::array<std::string, 2>> rows;
    const std::string text = readme();
    std::size_t at = text.find('\n' + heading + '\n');
    if (at == std::string::npos) return rows;
    at = text.find('\n', text.find('\n', at + 1) + 1) + 1;  // past the heading and its rule
    while (text.compare(at, 2, "| ") == 0) {
        const std::size_t end = text.find('\n', at);
        const std::string row = text.substr(at, end - at);
        const std::size_t a = row.find(" |"), b = row.find(" |", a + 2);
        rows[row.substr(3, a - 4)] = {row.substr(a + 3, b - a - 3), row.substr(b + 2)};
        at = end + 1;
    }
    return rows;
}

}  // namespace rakelight
