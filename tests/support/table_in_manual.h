// A table of the manual, for tests that hold it against a table of the program.
#pragma once

#include <array>
#include <fstream>
#include <iterator>
#include <map>
#include <string>

namespace rakelight {

/// The text of a chapter, such as "lay"; empty where there is none.
inline std::string chapter(const std::string& name) {
    std::ifstream file(RAKELIGHT_SCENES "/../output/manual/" + name + ".md");
    return {std::istreambuf_iterator<char>(file), {}};
}

/// The rows of the table under a heading line of a chapter, second and third cell by first; marks round the
/// first (`*word*`) taken off.
inline std::map<std::string, std::array<std::string, 2>> table_in_manual(const std::string& name,
                                                                         const std::string& heading) {
    std::map<std::string, std::array<std::string, 2>> rows;
    const std::string text = chapter(name);
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
