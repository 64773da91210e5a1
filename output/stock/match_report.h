// The answer of `rakelight match`, for a person with a scale and for a program.
#pragma once

#include <string>
#include <vector>

#include "materials/stock/match.h"
#include "output/film/json_head.h"

namespace rakelight {

struct MatchReport {
    MatchRequest request;
    std::string wanted;  ///< in words
    Lab wanted_lab;      ///< under the chosen lamp
    double within = 1;   ///< CIEDE2000 that counts as reached
    std::vector<Match> matches;
    bool reached() const { return !matches.empty() && matches.front().delta_e <= within; }
};

/// Lines to print; ends with a newline.
std::string match_text(const MatchReport& report);

/// The same numbers as JSON, and the reflectance of each recipe at the bands.
std::string match_json(const MatchReport& report, const MadeFrom& from);

}  // namespace rakelight
