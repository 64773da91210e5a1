// The samples as a stock library that layouts name by `stock from:`.
#pragma once

#include <string>

#include "output/samples/understand.h"

namespace rakelight {

/// YAML, with comments that say from what, when and how sure.
std::string stock_text(const SamplesReport& report);

}  // namespace rakelight
