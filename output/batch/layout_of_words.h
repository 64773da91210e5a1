// The layout that a command would read, told from its words.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rakelight {

/// A hash of the first layout among the words of a command as it would be typed, with what it is made from,
/// --set and --pieces; 0 when none of them is a layout file. \throws LayoutError when it is wrong.
std::uint64_t layout_hash_of(const std::vector<std::string>& words);

}  // namespace rakelight
