// What a row of a table of keys says, in words.
#pragma once

#include <string>
#include <vector>

#include "scene/text/key_table.h"

namespace rakelight {

/// "a length, 0 to 50 mm, or a list of 2 lengths, 0 to 50 mm": every shape that the value may have.
std::string takes_text(const Takes& takes);

/// "must be given", "usually 6 mm", or nothing.
std::string usual_text(const KeyRow& row);

/// "Exactly one of like, kind and base." and so on, a sentence a rule.
std::vector<std::string> rule_texts(const KeyTable& table);

/// Words with commas and a last "and" or "or".
std::string in_a_row(const std::vector<std::string>& words, std::string_view last);

}  // namespace rakelight
