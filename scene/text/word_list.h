// Words in a list.
#pragma once

#include <algorithm>
#include <span>
#include <string>
#include <string_view>

namespace rakelight {

inline bool holds(std::span<const std::string> words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace rakelight
