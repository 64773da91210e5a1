// The words for forms of pieces, as layouts and piece tables write them.
#pragma once

#include <string>
#include <vector>

#include "scene/model/piece.h"

namespace rakelight {

/// In the order of PieceForm.
inline const std::vector<std::string>& form_words() {
    static const std::vector<std::string> words{"usual",   "sawn",  "nipped", "riven", "fused edge",
                                                "tumbled", "chunk", "pebble", "bead"};
    return words;
}

}  // namespace rakelight
