// What is wrong with a layout, said so that the artist can put it right: where, which key, what was found and
// what was expected. All the problems of a file travel in one error.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

struct Problem {
    Place place;       ///< line and column count from 1; line 0 = the file as a whole
    std::string key;   ///< path of the key, for example `fields[2].piece`; empty = the file as a whole
    std::string text;  ///< "found X, expected Y", then "; did you mean Z?" where there is a near word
};

/// One line, without a newline: `file:line:column: key: text`.
inline std::string to_string(const Problem& problem) {
    std::string line = problem.place.file;
    if (problem.place.line > 0)
        line += ':' + std::to_string(problem.place.line) + ':' + std::to_string(problem.place.column);
    line += ": ";
    if (!problem.key.empty()) line += problem.key + ": ";
    return line + problem.text;
}

/// The layout cannot be rendered as it is written. `what()` holds every problem, one a line.
class LayoutError : public std::runtime_error {
  public:
    explicit LayoutError(std::vector<Problem> problems)
        : std::runtime_error(lines(problems)), problems_(std::move(problems)) {}
    /// A single problem.
    LayoutError(Place place, std::string key, std::string text)
        : LayoutError(std::vector<Problem>{{std::move(place), std::move(key), std::move(text)}}) {}

    const std::vector<Problem>& problems() const noexcept { return problems_; }

  private:
    static std::string lines(const std::vector<Problem>& problems) {
        std::string text;
        for (const Problem& problem : problems) {
            if (!text.empty()) text += '\n';
            text += to_string(problem);
        }
        return text;
    }

    std::vector<Problem> problems_;
};

}  // namespace rakelight
