// What the glare command found, for other programs: every number of its sheets.
#pragma once

#include <string>
#include <vector>

#include "output/film/json_head.h"
#include "output/glare/report.h"

namespace rakelight {

/// One report as JSON.
nlohmann::ordered_json json_of(const GlareReport& report);

/// All of them. `moves`: what was found to move, one a set-up of light; null when it was not
/// asked.
std::string glare_json(const std::vector<GlareReport>& reports, const nlohmann::ordered_json& moves,
                       const MadeFrom& from, const std::vector<std::string>& files);

}  // namespace rakelight
