#include "output/keys/markdown.h"

#include <fmt/format.h>

#include "output/keys/words.h"
#include "scene/keys/keys.h"

namespace rakelight {

namespace {

constexpr std::string_view kHead =
    "# Every key of a layout file\n\n"
    "Printed by `rakelight keys --markdown`; change the tables in scene/keys, not this page.\n\n"
    "Lengths are millimetres unless a unit is written: mm, cm, m, in or ft, as in `24 in`. Angles are "
    "degrees\n"
    "(deg, rad), temperatures of light kelvin (K, C, F), masses grams (g, kg, oz, lb). Shares are written\n"
    "`20 %` or `0.2`. On the panel, `[x, y]` counts from its lower left corner, y up. In the room,\n"
    "`[x, y, z]` counts from the floor below the panel's middle: x to the right, y up, z out of the wall.\n\n"
    "A key in capitals stands for a name of your own. `SECTION.key` is a key within a key.\n";

std::string in_cell(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '|' || c == '*' || c == '_' || c == '<') out += '\\';
        out += c;
    }
    return out;
}

}  // namespace

std::string keys_in_markdown() {
    std::string text{kHead};
    for (const KeyTable* table : keys::every_table()) {
        text += fmt::format("\n## {}\n\n{}\n\n| key | takes | left out | meaning |\n|---|---|---|---|\n",
                            table->name, table->says);
        for (const KeyRow& row : table->rows)
            text += fmt::format("| `{}` | {} | {} | {} |\n", row.key, in_cell(takes_text(row.takes)),
                                in_cell(row.usual), in_cell(row.says));
        const std::vector<std::string> rules = rule_texts(*table);
        if (!rules.empty()) text += '\n';
        for (const std::string& rule : rules) text += fmt::format("- {}\n", rule);
    }
    return text;
}

}  // namespace rakelight
