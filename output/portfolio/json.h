// The numbers of a portfolio for machines: portfolio.json.
#pragma once

#include <string>
#include <vector>

#include "output/film/json_head.h"
#include "output/portfolio/proposal.h"
#include "output/portfolio/shot_plan.h"

namespace rakelight {

/// One finished print.
struct PortfolioPrint {
    PlannedShot plan;
    std::string file;
    std::uint64_t scene_hash = 0;
};

/// One in a photograph of the wall.
struct PrintInPhotographs {
    std::string title, file;
    glm::ivec2 size_px{};
    std::uint64_t scene_hash = 0;
};

/// JSON text ending in a newline; "version" grows when a key changes its meaning.
std::string portfolio_json(const Proposal& proposal, const std::vector<PortfolioPrint>& prints,
                           const std::vector<PrintInPhotographs>& in_photographs, const MadeFrom& from,
                           const std::vector<std::string>& files);

}  // namespace rakelight
