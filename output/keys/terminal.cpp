#include "output/keys/terminal.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/keys/words.h"
#include "output/system/errors.h"
#include "scene/keys/keys.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

constexpr std::size_t kColumns = 80;

/// Words in lines of at most kColumns, each begun by so many blanks.
std::string wrapped(std::string_view text, std::size_t indent) {
    std::string out, line;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const std::string_view next = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (!line.empty() && indent + line.size() + 1 + next.size() > kColumns) {
            out += std::string(indent, ' ') + line + '\n';
            line.clear();
        }
        if (!line.empty()) line += ' ';
        line += next;
    }
    return line.empty() ? out : out + std::string(indent, ' ') + line + '\n';
}

std::string_view last_part(std::string_view name) {
    return name.substr(name.rfind('.') + 1);
}

std::string row_text(const KeyRow& row, std::string_view name) {
    std::string text = fmt::format("  {}\n", name) + wrapped(row.says, 6);
    const std::string usual = usual_text(row);
    return text + wrapped(takes_text(row.takes) + (usual.empty() ? "" : "; " + usual), 6);
}

std::string table_text(const KeyTable& table) {
    std::string text = fmt::format("{}\n", table.name) + wrapped(table.says, 2) + '\n';
    for (const KeyRow& row : table.rows) text += row_text(row, row.key);
    const std::vector<std::string> rules = rule_texts(table);
    if (!rules.empty()) text += '\n';
    for (const std::string& rule : rules) text += wrapped(rule, 2);
    return text;
}

// The key wherever it stands, or where the path says.
std::string rows_called(std::string_view wanted) {
    std::string text;
    for (const KeyTable* table : keys::every_table())
        for (const KeyRow& row : table->rows) {
            const std::string path =
                table == &keys::layout ? std::string(row.key) : fmt::format("{}.{}", table->name, row.key);
            if (row.key == wanted || path == wanted) text += row_text(row, path);
        }
    return text;
}

std::vector<std::string> every_word() {
    std::vector<std::string> words;
    for (const KeyTable* table : keys::every_table()) {
        words.emplace_back(table->name);
        words.emplace_back(last_part(table->name));
        for (const KeyRow& row : table->rows)
            if (!row.stands_for) words.emplace_back(row.key);
    }
    return words;
}

}  // namespace

std::string sections_on_terminal() {
    std::string text;
    for (const KeyTable* table : keys::every_table())
        text += fmt::format("  {}\n", table->name) + wrapped(table->says, 6);
    return "Sections of a layout file; `rakelight keys SECTION` lists the keys of one.\n\n" + text;
}

std::string keys_on_terminal(std::string_view wanted) {
    std::string text;
    for (const KeyTable* table : keys::every_table())
        if (table->name == wanted) return table_text(*table);
    for (const KeyTable* table : keys::every_table())
        if (last_part(table->name) == wanted) {
            if (!text.empty()) text += '\n';
            text += table_text(*table);
        }
    if (text.empty()) text = rows_called(wanted);
    if (text.empty())
        throw RequestError(fmt::format("found \"{}\", expected a section or a key of a layout file{}", wanted,
                                       did_you_mean(wanted, every_word())));
    return text;
}

}  // namespace rakelight
