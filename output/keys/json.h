// Tables of keys for scripts.
#pragma once

#include <string>

namespace rakelight {

/// Every section with its keys: `takes` as a list of shapes with form, unit, limits, words or section.
std::string keys_in_json();

}  // namespace rakelight
