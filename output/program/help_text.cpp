#include "output/program/help_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <optional>

#include "output/system/progress.h"

namespace rakelight {

namespace {

constexpr int kColumns = 78;
constexpr int kMeaningColumn = 24;

std::size_t blanks_before(std::string_view line) {
    return std::min(line.find_first_not_of(' '), line.size());
}

// Where the meaning begins in a line of a list, "  name  meaning"; none in another line.
std::optional<std::size_t> meaning_column(std::string_view line) {
    const std::size_t gap = line.find("  ", blanks_before(line));
    const std::size_t column = gap == std::string_view::npos ? gap : line.find_first_not_of(' ', gap);
    return column == std::string_view::npos ? std::nullopt : std::optional(column);
}

// "  --into DIR    Folder for ..": a long name has its line to itself.
std::string row(const std::string& name, const std::string& meaning) {
    const int width = text_width(name);
    const bool beside = width + 4 <= kMeaningColumn;
    const std::string between = beside
                                    ? std::string(static_cast<std::size_t>(kMeaningColumn - 2 - width), ' ')
                                    : "\n" + std::string(kMeaningColumn, ' ');
    return "  " + name + between + wrapped(meaning, kColumns, kMeaningColumn, kMeaningColumn) + "\n";
}

std::string rows_of(const char* title, const std::vector<OptionWords>& options) {
    if (options.empty()) return "";
    std::string text = fmt::format("\n{}:\n", title);
    for (const OptionWords& option : options) {
        const std::string names = fmt::format("{}", fmt::join(option.names, ", "));
        const bool both = !names.empty() && !option.value.empty();
        text += row(names + (both ? " " : "") + option.value, option.told());
    }
    return text;
}

}  // namespace

std::string wrapped(std::string_view text, int columns, int first, int next) {
    std::string set;
    int at = first;
    bool begun = false;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const std::string_view word = text.substr(begin, end - begin);
        begin = end + 1;
        if (word.empty()) continue;
        const int width = text_width(word);
        if (begun && at + 1 + width > columns) {
            set += "\n" + std::string(static_cast<std::size_t>(next), ' ');
            at = next;
        } else if (begun) {
            set += ' ';
            ++at;
        }
        set += word;
        at += width;
        begun = true;
    }
    return set;
}

std::string list_line(std::string_view line, int columns) {
    if (text_width(line) <= columns) return std::string(line);
    const std::size_t column = meaning_column(line).value_or(blanks_before(line));
    const int at = text_width(line.substr(0, column));
    return std::string(line.substr(0, column)) + wrapped(line.substr(column), columns, at, at);
}

std::vector<FooterBlock> footer_blocks(const std::string& footer) {
    std::vector<FooterBlock> blocks;
    bool apart = true;
    for (const std::string& line : CLI::detail::split(footer, '\n')) {
        if (line.empty()) {
            apart = true;
            continue;
        }
        const bool as_it_is = line.front() == ' ';
        if (apart || blocks.back().as_it_is != as_it_is)
            blocks.push_back({as_it_is, apart, {line}});
        else if (!as_it_is)
            blocks.back().lines.front() += " " + line;
        else if (blanks_before(line) == meaning_column(blocks.back().lines.back()))
            blocks.back().lines.back() += " " + line.substr(blanks_before(line));
        else
            blocks.back().lines.push_back(line);
        apart = false;
    }
    return blocks;
}

std::string usage_of(const CommandWords& command) {
    std::string usage = "rakelight";
    if (command.name.empty()) return usage + " COMMAND [OPTIONS]";
    usage += " " + command.name;
    for (const OptionWords& argument : command.arguments) {
        const std::string value = argument.value + (argument.many ? ".." : "");
        usage += argument.required ? " " + value : " [" + value + "]";
    }
    for (const OptionWords& option : command.options)
        if (option.required) usage += fmt::format(" {} {}", option.names.back(), option.value);
    return usage + " [OPTIONS]";
}

std::string help_text(const CommandWords& command, const std::vector<CommandWords>& commands) {
    std::string text = wrapped(command.meaning + ".", kColumns, 0, 0) + "\n\n";
    text += wrapped("Usage: " + usage_of(command), kColumns, 0, 7) + "\n";
    if (!commands.empty()) {
        text += "\nCommands, the usual one first:\n";
        for (const CommandWords& each : commands) text += row(each.name, each.meaning);
    }
    text += rows_of("Arguments", command.arguments) + rows_of("Options", command.options);
    for (const FooterBlock& block : footer_blocks(command.footer)) {
        if (block.apart) text += "\n";
        for (const std::string& line : block.lines)
            text += (block.as_it_is ? list_line(line, kColumns) : wrapped(line, kColumns, 0, 0)) + "\n";
    }
    return text;
}

}  // namespace rakelight
