// The numbers of a laid panel for machines: laying.json.
#pragma once

#include "output/lay/map.h"
#include "output/lay/report.h"
#include "scene/faults/faults.h"

namespace rakelight {

struct Layout;

/// JSON text, two spaces a step, ending in a newline; "version" grows when a key changes its meaning. Every
/// number that a sheet of the laying shows is in it, unrounded. `map`: null when none was drawn; `faults`:
/// null unless asked for. `files`: names of what was written beside it.
std::string laying_json(const Layout& layout, const Laying& laying, const LayingReport& report,
                        const LayingMap* map, const LayingFaults* faults,
                        const std::vector<std::string>& files);

}  // namespace rakelight
