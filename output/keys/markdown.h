// Tables of keys as a chapter of the manual.
#pragma once

#include <string>

namespace rakelight {

/// The whole reference, output/manual/keys.md.
std::string keys_in_markdown();

}  // namespace rakelight
