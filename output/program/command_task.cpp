// `rakelight task`: one task of those that `batch --on` handed out.
#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <memory>

#include "output/batch/layout_of_words.h"
#include "output/farm/task_state.h"
#include "output/farm/tasks.h"
#include "output/film/scene_hash.h"
#include "output/preview/finished.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/parse_options.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/job_words.h"
#include "output/system/run_self.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct TaskRequest {
    std::string folder;
    std::string task;
    std::string of;
};

// A task on its way, and the file that tells others of it.
struct Running {
    fs::path folder;
    TaskName name;
    TaskState state;
    std::chrono::steady_clock::time_point told{};

    void tell() {
        told = std::chrono::steady_clock::now();
        write_state(folder, name, state);
    }
    void tell_now_and_then() {
        if (std::chrono::steady_clock::now() - told > std::chrono::duration<double>(kSignOfLife_s)) tell();
    }
};

int run_and_tell(const std::vector<std::string>& words, Running& running) {
    JobListener listener;
    listener.out = [](std::string_view line) {
        fmt::print("{}\n", line);
        std::fflush(stdout);
    };
    listener.err = [&](std::string_view line) {
        fmt::print(stderr, "{}\n", line);
        if (const auto progress = progress_in(line)) running.state.share = progress->share;
    };
    listener.cancelled = [&] {
        running.tell_now_and_then();
        return interrupted();
    };
    return run_self(words, listener);
}

std::vector<std::string> preview_words(const FarmJob& job, int which) {
    std::vector<std::string> words = job.words;
    for (const FarmPicture& picture : job.pictures)
        words.insert(words.end(), {"--expect", hash_digits(picture.scene_hash)});
    if (job.work == FarmWork::parts)
        words.insert(words.end(), {kPartOption, fmt::format("{}/{}", which, job.tasks)});
    return words;
}

// Joins one picture from its parts, and removes them once it is there.
int join_picture(const FarmJob& parts, const FarmPicture& picture, Running& running) {
    if (!is_finished(picture.folder, picture.stem, picture.scene_hash, printing_of(parts))) {
        std::vector<std::string> words{"join", "--into", picture.folder.empty() ? "." : picture.folder};
        if (!printing_of(parts).glow) words.emplace_back(kNoGlowOption);
        if (printing_of(parts).as_traced) words.emplace_back(kAsTracedOption);
        for (int which = 1; which <= parts.tasks; ++which)
            words.push_back((fs::path(".") / part_file(picture, which, parts.tasks)).string());
        if (const int code = run_and_tell(words, running); code != 0) return code;
        if (!is_finished(picture.folder, picture.stem, picture.scene_hash, printing_of(parts)))
            throw RequestError(
                fmt::format("{}: found parts of another scene than was handed out, expected {}", picture.stem,
                            hash_digits(picture.scene_hash)));
    }
    for (int which = 1; which <= parts.tasks; ++which) {
        std::error_code ignored;
        fs::remove(part_file(picture, which, parts.tasks), ignored);
    }
    return 0;
}

int carry_out(const FarmTasks& tasks, const TaskName& name, Running& running) {
    const FarmJob& job = tasks.jobs[static_cast<std::size_t>(name.job - 1)];
    if (job.work == FarmWork::join) {
        const FarmJob& parts = tasks.jobs[static_cast<std::size_t>(job.after.front() - 1)];
        for (const FarmPicture& picture : job.pictures)
            if (const int code = join_picture(parts, picture, running); code != 0) return code;
        return 0;
    }
    if (has_its_files(job, name.which)) {
        fmt::print(stderr, "Note: {} was done before\n", task_text(name));
        return 0;
    }
    if (job.work == FarmWork::command) {
        if (const std::uint64_t now = layout_hash_of(job.words); now != job.sources)
            throw RequestError(fmt::format("{}: found scene {}, expected {}: the layout has changed",
                                           title_of(job), hash_digits(now), hash_digits(job.sources)));
        return run_and_tell(job.words, running);
    }
    return run_and_tell(preview_words(job, name.which), running);
}

void do_task(const TaskRequest& request) {
    const fs::path folder = fs::absolute(request.folder);
    const FarmTasks tasks = read_tasks(folder);
    if (!request.of.empty() && request.of != hash_digits(mark_of(tasks)))
        throw RequestError(
            fmt::format("{}: found other tasks than these scripts are for, expected those of {}",
                        request.folder, request.of));
    const TaskName name = parse_task(request.task, tasks);
    const std::uint64_t mark = mark_of(tasks, name.job);
    std::error_code error;
    fs::current_path(folder / tasks.seen_from, error);
    if (error)
        throw OutputError(
            fmt::format("cannot go to {}: {}", (folder / tasks.seen_from).string(), error.message()));
    Running running{folder, name, state_here(TaskStage::running, mark)};
    running.tell();
    const auto end = [&](TaskStage stage, int code) {
        running.state = state_here(stage, mark);
        running.state.code = code;
        running.tell();
    };
    int code = 0;
    try {
        code = carry_out(tasks, name, running);
    } catch (const RequestError&) {
        end(TaskStage::failed, 2);
        throw;
    } catch (...) {
        end(interrupted() ? TaskStage::left : TaskStage::failed, 3);
        throw;
    }
    // What was stopped is no failure: it goes on from where it was.
    end(code == 0 ? TaskStage::done : interrupted() ? TaskStage::left : TaskStage::failed, code);
    stop_if_interrupted();
    if (code != 0) fail_as_job(code, fmt::format("task {} could not be done (above)", task_text(name)));
}

}  // namespace

void add_task(CLI::App& app) {
    auto* command = app.add_subcommand("task", "Do one task of those that `batch --on` handed out");
    const auto r = std::make_shared<TaskRequest>();
    command->add_option("FOLDER", r->folder, "Where the tasks are")->required();
    command->add_option("TASK", r->task, "Which of them, as job and place, such as 1-4")->required();
    command->add_option("--of", r->of, "Refuse when the tasks are others than these by now")
        ->type_name("HASH");
    command->footer(
        "The scripts that `batch --on` writes call this on every machine. It needs\n"
        "nothing but this program and the folder. What was done before is left alone,\n"
        "what was stopped goes on from its last rows.\n\n"
        "Example:\n  rakelight task renders/night.tasks 1-4");
    command->callback([r] { do_task(*r); });
}

}  // namespace rakelight
