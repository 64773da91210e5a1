// Days from a laid panel to a sealed one: bed cure, pre-sealing, one zone a day with its cure before tape
// goes over it, damp cure, when a colour may be judged, when to seal. At 20 to 23 C and 50 % relative
// humidity; common practice, no published source; the maker's data sheets win.
#pragma once

#include <string>
#include <vector>

#include "output/take_off/reckoning/grout_zones.h"

namespace rakelight {

struct Layout;

struct PlanStep {
    int first_day = 0;      ///< when all goes as fast as it can; day 0 = the last piece is laid
    int unhurried_day = 0;  ///< with the longer cures
    std::string what;
    std::string how;
    int zone = -1;  ///< index of the zone that is filled, or -1
};

/// `order`: of order_zones. `pre_seal`: names of open-pored materials that are sealed first.
std::vector<PlanStep> day_plan(const Layout& layout, const std::vector<GroutZone>& zones,
                               const std::vector<std::size_t>& order,
                               const std::vector<std::string>& pre_seal);

}  // namespace rakelight
