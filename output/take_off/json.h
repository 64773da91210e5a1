// The take-off for machines, and as lists for a spreadsheet.
#pragma once

#include <string>

#include "output/lay/report.h"
#include "output/take_off/reckoning/take_off.h"

namespace rakelight {

struct Layout;

/// "version" grows when a key changes its meaning. `files`: those written beside it.
std::string take_off_json(const Layout& layout, const LayingReport& report, const TakeOff& take_off,
                          const std::vector<std::string>& files);

/// Everything to buy or make, one a line (RFC 4180): pieces by material, bed and grout by mix, board, frame.
std::string take_off_csv(const Layout& layout, const TakeOff& take_off);

/// One grout zone a line, in their order.
std::string zones_csv(const TakeOff& take_off);

}  // namespace rakelight
