// `rakelight all`: everything of a layout in one go, into one folder, with the page as its cover.
#include <fmt/format.h>

#include <memory>

#include "output/preview/expected_time.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/read_and_warn.h"
#include "output/program/steps_of_all.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/run_self.h"
#include "output/system/safe_file.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

namespace {

struct FailedStep {
    std::string command;
    int code = 0;
    std::vector<std::string> said;
};

// Runs a step as a program of its own and passes on what it says.
int carry_out(const AllStep& step, FailedStep& failed, bool quiet) {
    std::vector<std::string> words{step.command};
    words.insert(words.end(), step.words.begin(), step.words.end());
    JobListener listener;
    listener.out = [](std::string_view line) {
        fmt::print("{}\n", line);
        std::fflush(stdout);
    };
    listener.err = [&](std::string_view line) {
        if (!quiet && line.starts_with(kTracing)) fmt::print(stderr, "{}\n", line);
        failed.said.emplace_back(line);
    };
    listener.cancelled = interrupted;
    return run_self(words, listener);
}

void make_all(const AllRequest& request, const std::vector<std::string>& commands) {
    // A layout that is wrong would fail every step alike.
    find_drawing_on_paper(request.file, request.changes);
    const Layout layout = read_layout(request.file, {}, request.changes);
    const std::vector<AllStep> steps = steps_of_all(request, layout, commands);
    std::vector<FailedStep> failures;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!request.quiet) fmt::print(stderr, "{} of {}: {}\n", i + 1, steps.size(), steps[i].command);
        FailedStep failed{steps[i].command, 0, {}};
        failed.code = carry_out(steps[i], failed, request.quiet);
        stop_if_interrupted();
        if (failed.code != 0) failures.push_back(std::move(failed));
    }
    for (const FailedStep& failed : failures) {
        fmt::print(stderr, "Failed ({}): {}\n", failed.code, failed.command);
        for (const std::string& line : failed.said) fmt::print(stderr, "  {}\n", line);
    }
    fmt::print("{} of {} done, in {}\n", steps.size() - failures.size(), steps.size(),
               finished_folder(request.into, request.file, request.changes).string());
    if (!failures.empty()) fail_as_job(failures.front().code, "not everything could be made (above)");
}

}  // namespace

void add_all(CLI::App& app) {
    auto* command =
        app.add_subcommand("all", "Make everything of a layout in one go, with a page as its cover");
    const auto r = std::make_shared<AllRequest>();
    r->into = kFinishedFolder;
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_into(*command, r->into);
    command->add_option("--without", r->without, "Leave these out, by the names of their commands")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command->add_flag("--draft", r->draft, "Small and grainy, to see soon what there will be");
    add_threads(*command, r->threads);
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Runs lay, stock, take-off, board (where the layout has one), glare, preview and portfolio, and "
        "makes "
        "the "
        "page of\n"
        "all of it last. One that fails keeps none of the others from being made; failures are listed in the "
        "end, and "
        "the\n"
        "exit code is that of the first.\n\n"
        "Examples:\n"
        "  rakelight all tide.yaml --draft\n"
        "  rakelight all tide.yaml --without portfolio");
    command->callback([r, &app] { make_all(*r, command_names(app)); });
}

}  // namespace rakelight
