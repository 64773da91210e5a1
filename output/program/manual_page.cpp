#include "output/program/manual_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "output/program/exit_codes.h"
#include "output/program/help_text.h"

namespace rakelight {

namespace {

// Text in which Markdown shall find no mark-up; what stands between backquotes is kept as code.
std::string plain(std::string_view text) {
    std::string escaped;
    bool code = false;
    for (const char c : text) {
        if (c == '`') code = !code;
        if (!code && std::string_view("\\*_[]<>#$@~^|'\"-.!").find(c) != std::string_view::npos)
            escaped += '\\';
        escaped += c;
    }
    return escaped;
}

std::string definition(const std::string& term, const std::string& meaning) {
    return fmt::format("{}\n:   {}\n\n", term, meaning);
}

std::string options_text(const std::vector<OptionWords>& options) {
    std::string text;
    for (const OptionWords& option : options) {
        std::vector<std::string> names;
        for (const std::string& name : option.names) names.push_back("**" + plain(name) + "**");
        std::string term = fmt::format("{}", fmt::join(names, ", "));
        if (!option.value.empty()) term += (term.empty() ? "*" : " *") + plain(option.value) + "*";
        text += definition(term, plain(option.told()) + ".");
    }
    return text;
}

// Columns that a page of 80 leaves to lines as they are.
constexpr int kColumnsAsItIs = 62;

// Lines of a footer as they are: examples, which are typed, or a list.
std::string code_text(const FooterBlock& block, bool examples) {
    std::string text;
    for (const std::string& line : block.lines)
        for (const std::string& set :
             CLI::detail::split(examples ? line : list_line(line, kColumnsAsItIs), '\n'))
            text += "    " + set.substr(std::min<std::size_t>(2, set.size())) + "\n";
    return text + "\n";
}

// Paragraphs, and lines as they are; what follows "Examples:" gets a section.
std::string footer_text(const std::string& footer) {
    std::string text;
    bool examples = false;
    for (const FooterBlock& block : footer_blocks(footer)) {
        const std::string& first = block.lines.front();
        if (block.as_it_is)
            text += code_text(block, examples);
        else if (first == "Example:" || first == "Examples:") {
            text += "# EXAMPLES\n\n";
            examples = true;
        } else
            text += plain(first) + "\n\n";
    }
    return text;
}

std::string exit_status() {
    std::string text = "# EXIT STATUS\n\n";
    for (const ExitCode& each : kExitCodes)
        text += definition(fmt::format("**{}**", each.code), each.meaning);
    return text;
}

}  // namespace

std::string manual_page(const CommandWords& command) {
    const std::string footer = footer_text(command.footer);
    const std::size_t examples = std::min(footer.find("# EXAMPLES"), footer.size());
    std::string text =
        fmt::format("# NAME\n\n{} - {}\n\n", plain("rakelight-" + command.name), plain(command.meaning));
    text += fmt::format("# SYNOPSIS\n\n    {}\n\n# DESCRIPTION\n\n", usage_of(command));
    text += plain(command.meaning) + ".\n\n" + footer.substr(0, examples);
    if (!command.arguments.empty()) text += "# ARGUMENTS\n\n" + options_text(command.arguments);
    text += "# OPTIONS\n\n" + options_text(command.options) + footer.substr(examples) + exit_status();
    return text + "# SEE ALSO\n\n**rakelight**(1)\n";
}

std::string manual_of_program(const CommandWords& program, const std::vector<CommandWords>& commands) {
    std::string text = "# COMMANDS\n\n";
    for (const CommandWords& command : commands)
        text += definition(fmt::format("**rakelight\\-{}**(1)", plain(command.name)),
                           plain(command.meaning) + ".");
    return text + "# OPTIONS\n\n" + options_text(program.options) + exit_status();
}

}  // namespace rakelight
