// The numbers of a stock sheet for machines: NAME.json.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "output/stock/swatch_sheet.h"

namespace rakelight {

/// JSON text, two spaces a step, ending in a newline; "version" grows when a key changes its meaning. Every
/// number that the sheet shows is in it, unrounded. `files`: names of the pages, in order.
std::string stock_json(const StockReport& report, const SwatchSheet& sheet, std::uint64_t scene_hash,
                       const std::vector<std::string>& files);

}  // namespace rakelight
