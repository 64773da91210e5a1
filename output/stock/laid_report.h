// The answer of `rakelight match --glass`: how thick, and over which bed.
#pragma once

#include <string>
#include <vector>

#include "materials/stock/laid_glass.h"
#include "output/film/json_head.h"

namespace rakelight {

struct LaidReport {
    LaidGlassQuestion question;
    std::string wanted;           ///< in words
    double within = 1;            ///< CIEDE2000, or L*, that counts as reached
    std::vector<LaidGlass> ways;  ///< the best first
    bool reached() const { return !ways.empty() && ways.front().off <= within; }
};

/// A table to print; ends with a newline.
std::string laid_text(const LaidReport& report);

/// The same numbers as JSON.
std::string laid_json(const LaidReport& report, const MadeFrom& from);

}  // namespace rakelight
