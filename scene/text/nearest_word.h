// The known word that a mistyped one was most likely meant to be.
// Distance: insertions, deletions, substitutions and swaps of neighbours, no part edited twice (the
// restricted form of Damerau, "A technique for computer detection and correction of spelling errors", CACM
// 7(3), 1964).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace rakelight {

/// Number of edits between two words, in bytes. Time grows with the product of the lengths.
int edit_distance(std::string_view a, std::string_view b);

/// The word of `known` with the fewest edits from `word`, letter case aside and space, hyphen and underscore
/// alike; the first of equals. None when more than a third of the letters (at least one) would have to
/// change, or when `word` is longer than any sensible name (64 bytes).
std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> known);

/// "; did you mean Z?", or nothing when no word is near.
std::string did_you_mean(std::string_view word, std::span<const std::string> known);

}  // namespace rakelight
