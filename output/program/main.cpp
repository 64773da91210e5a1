// The program. Its exit codes stand in exit_codes.h.
#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <new>
#include <system_error>

#include "output/command_line/exit_codes.h"
#include "output/command_line/help_text.h"
#include "output/command_line/mistyped.h"
#include "output/command_line/version_text.h"
#include "output/program/commands.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/standard_streams.h"
#include "renderer/render.h"
#include "scene/text/diagnostics.h"

namespace {

int complain(int code, std::string_view what) {
    fmt::print(stderr, "{}\n", what);
    return code;
}

int complain_of_stdout() {
    return complain(
        3, fmt::format("cannot write to standard output: {}", std::generic_category().message(errno)));
}

// What was printed is only known to be told once it has left.
int told(int code) {
    const bool good = std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
    return good || code != 0 ? code : complain_of_stdout();
}

// The command that was meant, as far as it was understood, and where to read on.
int complain_of_words(const CLI::App& app, const std::vector<std::string>& words, const CLI::ParseError& e) {
    if (words.empty())
        return complain(2,
                        "rakelight: expected a command, such as `rakelight preview LAYOUT.yaml`\n"
                        "`rakelight --help` lists them all.");
    const std::vector<CLI::App*> chosen = app.get_subcommands();
    const std::string command = "rakelight" + (chosen.empty() ? "" : " " + chosen.front()->get_name());
    return complain(
        2, fmt::format("{}\n`{} --help` tells more.",
                       rakelight::mistyped(app, words).value_or(fmt::format("{}: {}", command, e.what())),
                       command));
}

int run(CLI::App& app, int argc, char** argv) {
    try {
        app.parse(argc, argv);
        return 0;
    } catch (const CLI::ParseError& e) {
        if (e.get_exit_code() == 0) return app.exit(e);
        return complain_of_words(app, {argv + std::min(argc, 1), argv + argc}, e);
    } catch (const rakelight::LayoutError& e) {
        return complain(2, e.what());
    } catch (const rakelight::RequestError& e) {
        return complain(2, e.what());
    } catch (const rakelight::OutputError& e) {
        return complain(3, e.what());
    } catch (const rakelight::Cancelled&) {
        return complain(130, "stopped");
    } catch (const rakelight::Interrupted&) {
        return complain(130, "stopped");
    } catch (const std::bad_alloc&) {
        return complain(1, "the machine has not enough memory for this picture");
    } catch (const std::system_error& e) {
        if (std::ferror(stdout) != 0) return complain_of_stdout();
        return complain(1, fmt::format("stopped by something unforeseen: {}", e.what()));
    } catch (const std::exception& e) {
        return complain(1, fmt::format("stopped by something unforeseen: {}", e.what()));
    }
}

std::string footer() {
    std::string text =
        "Progress, warnings and errors go to standard error, names of files and numbers to standard output. "
        "Nothing is ever coloured, so NO_COLOR has nothing to do; where standard error is no terminal, "
        "progress "
        "is a line of text every tenth.\n\nExit codes:\n";
    for (const rakelight::ExitCode& each : rakelight::kExitCodes)
        text += fmt::format("  {:<4}  {}\n", each.code, each.meaning);
    return text +
           "\nExamples:\n"
           "  rakelight preview tide.yaml\n"
           "  rakelight preview --help";
}

}  // namespace

int main(int argc, char** argv) {
    rakelight::keep_standard_streams();
    rakelight::watch_for_interrupt();
    CLI::App app{"See a mosaic panel under its lamps before it is laid", "rakelight"};
    app.formatter_fn([](const CLI::App* command, const std::string&, CLI::AppFormatMode) {
        return rakelight::help_text(rakelight::words_of(*command), rakelight::commands_of(*command));
    });
    app.set_help_flag("-h,--help", "Show this help");
    app.set_version_flag("--version", rakelight::version_text(),
                         "Show the version, and the libraries it is built with");
    app.require_subcommand(1);
    app.footer(footer());
    rakelight::add_every_command(app);
    return told(run(app, argc, argv));
}
