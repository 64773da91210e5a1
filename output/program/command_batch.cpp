// `rakelight batch`: many layouts and other jobs one after another, overnight.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "output/batch/batch_list.h"
#include "output/batch/hand_out.h"
#include "output/batch/pictures_taken.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/system/interrupt.h"
#include "output/system/job_words.h"
#include "output/system/program.h"
#include "output/system/progress.h"
#include "output/system/run_self.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

struct BatchRequest {
    std::vector<std::string> names;
    std::string into;
    std::string size;
    std::string grain;
    std::string light;
    int most_samples = 0;
    int threads = 0;
    bool again = false;
    bool page = false;
    bool dry_run = false;
    bool quiet = false;
    std::string on;
    std::string machines;
    int parts = 0;
};

// A job and what became of it.
struct BatchRun {
    BatchJob job;
    std::vector<std::pair<std::string, double>> pictures;  // still to render: name and pixels
    double work = 0;                                       // in pixels; a guess for what is no picture
    std::optional<int> code;                               // once it ended, or need not or cannot begin
    bool finished_before = false;
    std::vector<std::string> said;     // warnings and why it failed
    std::vector<std::string> planned;  // lines of a dry run
    std::vector<std::string> folders;  // that its pictures go to
};

constexpr double kWorkOfOtherJobs = 2e5;

bool is_preview(const BatchJob& job) {
    return !job.words.empty() && job.words[0] == "preview";
}

std::vector<std::string> arguments_of(const BatchRequest& request, const BatchJob& job) {
    std::vector<std::string> words = job.words;
    const auto add = [&](const char* option, const std::string& value) {
        // What a line of a list says itself goes before.
        if (!value.empty() && std::find(words.begin(), words.end(), option) == words.end())
            words.insert(words.end(), {option, value});
    };
    const std::string number = request.threads > 0 ? std::to_string(request.threads) : "";
    if (is_preview(job)) {
        add("--into", request.into);
        add("--size", request.size);
        add("--grain", request.grain);
        add("--light", request.light);
        add("--threads", number);
        add("--most-samples", request.most_samples > 0 ? std::to_string(request.most_samples) : "");
        if (!request.again) words.push_back("--skip-finished");
    }
    return words;
}

// Reads every layout before the first is rendered, so that mistakes come to light at once.
void plan(BatchRun& run, const BatchRequest& request, PicturesTaken& taken) {
    if (!run.job.complaint.empty()) {
        run.said = {run.job.complaint};
        run.code = 2;
        return;
    }
    run.work = kWorkOfOtherJobs;
    if (!is_preview(run.job)) return;
    std::vector<std::string> words = arguments_of(request, run.job);
    words.push_back("--dry-run");
    JobListener listener;
    listener.out = [&](std::string_view line) { run.planned.emplace_back(line); };
    listener.err = [&](std::string_view line) { run.said.emplace_back(line); };
    listener.cancelled = interrupted;
    const int code = run_self(words, listener);
    stop_if_interrupted();
    run.work = 0;
    for (const std::string& line : run.planned)
        if (const auto picture = picture_in(line)) {
            run.folders.push_back(picture->folder);
            if (const std::string why =
                    taken.take(picture->folder, picture->stem, run.job.place, run.job.words);
                !why.empty()) {
                run.said = {why};
                run.code = 2;
                run.pictures.clear();
                return;
            }
            if (picture->finished) continue;
            run.pictures.emplace_back(picture->stem, double(picture->width_px) * picture->height_px);
            run.work += run.pictures.back().second;
        }
    run.finished_before = code == 0 && run.pictures.empty();
    if (code != 0 || run.finished_before) run.code = code;
    if (code == 0) run.said.clear();  // it will be said again
}

// How much of a job is done when this piece of it is done so far, in pixels.
double work_done(const BatchRun& run, const std::string& what, double share) {
    if (run.pictures.empty()) return run.work * share;
    double before = 0;
    for (const auto& [name, pixels] : run.pictures) {
        if (name == what) return before + share * pixels;
        before += pixels;
    }
    return 0;
}

std::string title_of(const BatchJob& job) {
    return job.words.empty() ? job.place : fmt::format("{}", fmt::join(job.words, " "));
}

// The file, and what is changed in it.
std::string short_title_of(const BatchJob& job) {
    std::string title = job.words.size() > 1 ? job.words[1] : job.words[0];
    for (std::size_t i = 1; i + 1 < job.words.size(); ++i)
        if (job.words[i] == "--set") title += ", " + job.words[i + 1];
    return title;
}

void carry_out(BatchRun& run, const BatchRequest& request, Progress& progress, double before, double all) {
    double most = before;
    JobListener listener;
    listener.out = [&](std::string_view line) {
        progress.clear();
        fmt::print("{}\n", line);
        std::fflush(stdout);
    };
    listener.err = [&](std::string_view line) {
        if (const auto told = progress_in(line)) {
            most = std::max(most, before + work_done(run, told->what, told->share));
            progress.show(all > 0 ? most / all : 0);
        } else {
            run.said.emplace_back(line);
        }
    };
    listener.cancelled = interrupted;
    run.code = run_self(arguments_of(request, run.job), listener);
    progress.show(all > 0 ? (before + run.work) / all : 1);
}

// Folders that pictures were planned in, each once.
std::vector<std::string> folders_of(const std::vector<BatchRun>& runs) {
    std::vector<std::string> folders;
    for (const BatchRun& run : runs)
        for (const std::string& folder : run.folders)
            if (run.code == 0 && std::find(folders.begin(), folders.end(), folder) == folders.end())
                folders.push_back(folder);
    return folders;
}

int report(const std::vector<BatchRun>& runs, bool dry_run) {
    int code = 0;
    std::size_t failed = 0;
    std::size_t before = 0;
    for (const BatchRun& run : runs) {
        before += run.finished_before;
        const bool bad = run.code.value_or(0) != 0;
        for (const std::string& line : run.said)
            if (!bad) fmt::print(stderr, "{}: {}\n", run.job.place, line);
        failed += bad;
    }
    for (const BatchRun& run : runs) {
        if (run.code.value_or(0) == 0) continue;
        fmt::print(stderr, "{} ({}): {}, asked for by {}\n", dry_run ? "Wrong" : "Failed", *run.code,
                   title_of(run.job), run.job.place);
        for (const std::string& line : run.said) fmt::print(stderr, "  {}\n", line);
        if (code == 0) code = *run.code;
    }
    const std::size_t others = runs.size() - failed - before;
    if (dry_run)
        fmt::print("{} jobs: {} to do, {} finished before, {} wrong\n", runs.size(), others, before, failed);
    else
        fmt::print("{} jobs: {} done, {} finished before, {} failed\n", runs.size(), others, before, failed);
    return code;
}

void batch_on_machines(const BatchRequest& request, const std::vector<std::string>& commands) {
    const HandOutRequest how{request.on,       request.into.empty() ? kFinishedFolder : request.into,
                             request.machines, request.names.front(),
                             request.parts,    request.threads,
                             request.page,     request.dry_run};
    const int code = hand_out(how, batch_jobs(request.names, commands),
                              [&](const BatchJob& job) { return arguments_of(request, job); });
    if (code != 0) fail_as_job(code, "not all jobs could be handed out (above)");
}

void batch(const BatchRequest& request, const std::vector<std::string>& commands) {
    if (!request.on.empty()) {
        batch_on_machines(request, commands);
        return;
    }
    std::vector<BatchRun> runs;
    for (BatchJob& job : batch_jobs(request.names, commands)) runs.push_back({std::move(job)});
    double all = 0;
    PicturesTaken taken;
    for (BatchRun& run : runs) {
        plan(run, request, taken);
        if (!run.code) all += run.work;
        if (request.dry_run && run.code.value_or(0) == 0) {
            if (!is_preview(run.job)) fmt::print("{}\n", title_of(run.job));
            for (const std::string& line : run.planned) fmt::print("{}\n", line);
        }
    }
    double before = 0;
    if (!request.dry_run) {
        Progress progress("batch", progress_kind(stderr, request.quiet));
        for (std::size_t i = 0; i < runs.size(); ++i) {
            if (runs[i].code) continue;
            progress.relabel(fmt::format("{} of {}, {}", i + 1, runs.size(), short_title_of(runs[i].job)));
            carry_out(runs[i], request, progress, before, all);
            stop_if_interrupted();
            before += runs[i].work;
        }
    }
    if (request.page && !request.dry_run)
        for (const std::string& folder : folders_of(runs)) {
            BatchRun page{{folder, {"page", folder}, ""}};
            Progress silent("", ProgressKind::quiet);
            carry_out(page, request, silent, 0, 0);
            runs.push_back(std::move(page));
        }
    if (const int code = report(runs, request.dry_run); code != 0)
        fail_as_job(code, "not all jobs could be done (above)");
}

}  // namespace

void add_batch(CLI::App& app) {
    auto* command = app.add_subcommand("batch", "Do many layouts and other jobs one after another");
    const auto r = std::make_shared<BatchRequest>();
    command->add_option("LIST", r->names, "Layout files, and lists of jobs")->required();
    command->add_option("--into", r->into, "Folder for the finished files of previews")->type_name("DIR");
    command->add_option("--size", r->size, "Width and height in pixels of previews, such as 600x450")
        ->type_name("WxH");
    command->add_option("--grain", r->grain, "Grain of previews to stop at, such as 10%")->type_name("SHARE");
    command->add_option("--light", r->light, "Previews in this light of their layouts")->type_name("NAME");
    command->add_option("--most-samples", r->most_samples, "At most this many samples a pixel of previews")
        ->check(CLI::Range(1, 1 << 20));
    command->add_option("--threads", r->threads, "Processor threads for previews; 0 = all")
        ->check(CLI::Range(0, 1024));
    auto* again =
        command->add_flag("--again", r->again, "Render pictures again that are finished and unchanged");
    command->add_flag("--page", r->page, "Make a page of each folder of previews in the end");
    command->add_flag("--dry-run", r->dry_run, "Only say what there is to do, and which layouts are wrong");
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    auto* on =
        command
            ->add_option("--on", r->on,
                         "Hand it to many machines, which see this folder, through Slurm or GNU Parallel; "
                         "with --dry-run only write the scripts")
            ->type_name("slurm|parallel")
            ->check(CLI::IsMember({"slurm", "parallel"}))
            ->excludes(again);
    command
        ->add_option(
            "--machines", r->machines,
            "File of machines for --on parallel, one on each line as ssh takes it, \":\" for this one")
        ->type_name("FILE")
        ->needs(on);
    command
        ->add_option("--parts", r->parts,
                     "Parts of each preview for --on; 0 = as many as keep set-up under a fifth of each")
        ->check(CLI::Range(0, 1000))
        ->needs(on);
    command->footer(
        "A list is a text file with a job on each line: layouts to preview (* and ? stand for letters), or "
        "any\n"
        "command of this program as it would be typed; # starts a remark. A job that fails keeps none of "
        "the\n"
        "others from being done; failures are listed in the end, and the exit code is that of the first of "
        "them.\n"
        "What is finished and unchanged is left alone; what was interrupted goes on from its last rows.\n\n"
        "Lines that begin with `for`, below a job, do it once for every value, and for\n"
        "every combination where there are several. Each variant goes to a folder named\n"
        "after its choices, such as renders/tide_grout-black_temperature-2700. A key is\n"
        "written as for --set: fields.sea.grout, or fields.all.grout for every field.\n\n"
        "Examples:\n"
        "  rakelight batch tide.yaml kelp.yaml --size 600x450\n"
        "  rakelight batch night.txt --page\n"
        "  rakelight batch night.txt --page --on slurm\n\n"
        "  # night.txt\n"
        "  commissions/*.yaml\n"
        "  stock tide.yaml\n"
        "  preview tide.yaml --size 600x450\n"
        "    for fields.all.grout in black, charcoal, sand\n"
        "    for lamps.spots.temperature in 2700, 4000\n"
        "  glare tide.yaml --viewpoint seated");
    command->callback([r, &app] {
        std::vector<std::string> commands = command_names(app);
        std::erase(commands, "batch");
        batch(*r, commands);
    });
}

}  // namespace rakelight
