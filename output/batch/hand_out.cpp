#include "output/batch/hand_out.h"

#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <system_error>
#include <utility>

#include "output/batch/layout_of_words.h"
#include "output/batch/pictures_taken.h"
#include "output/farm/part_size.h"
#include "output/farm/scripts.h"
#include "output/farm/status.h"
#include "output/farm/task_state.h"
#include "output/farm/tasks.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/run_self.h"
#include "output/system/safe_file.h"
#include "scene/text/diagnostics.h"

extern char** environ;

namespace rakelight {

namespace {

namespace fs = std::filesystem;

// A job that cannot be handed out.
struct Wrong {
    int code = 2;
    std::vector<std::string> said;
};

struct Planned {
    PictureCost cost;
    std::vector<FarmPicture> pictures;
    bool finished = true;
};

// Runs `preview .. --estimate`.
Planned planned_preview(const std::vector<std::string>& words, Wrong& wrong) {
    std::vector<std::string> asking = words;
    asking.emplace_back("--estimate");
    std::string out;
    JobListener listener;
    listener.out = [&](std::string_view line) { out.append(line).push_back('\n'); };
    listener.err = [&](std::string_view line) { wrong.said.emplace_back(line); };
    listener.cancelled = interrupted;
    wrong.code = run_self(asking, listener);
    stop_if_interrupted();
    Planned planned;
    if (wrong.code != 0) return planned;
    const auto j = nlohmann::ordered_json::parse(out);
    planned.cost.set_up_s = j.at("set_up_s").get<double>();
    for (const auto& p : j.at("pictures")) {
        planned.pictures.push_back({p.at("folder").get<std::string>(), p.at("stem").get<std::string>(),
                                    std::stoull(p.at("scene_hash").get<std::string>(), nullptr, 16)});
        planned.cost.trace_s += p.at("trace_s").get<double>();
        const int rows = p.at("size_px").at(1).get<int>();
        planned.cost.rows = planned.pictures.size() == 1 ? rows : std::min(planned.cost.rows, rows);
        planned.finished = planned.finished && p.at("finished").get<bool>();
    }
    return planned;
}

// How the same preview was split when it was handed out before: parts of that size may be there.
std::optional<int> split_before(const std::optional<FarmTasks>& before, const FarmJob& job) {
    if (!before) return {};
    for (const FarmJob& each : before->jobs)
        if (each.work != FarmWork::join && each.work != FarmWork::command && each.words == job.words &&
            each.pictures == job.pictures)
            return each.tasks;
    return {};
}

class Plan {
  public:
    Plan(const HandOutRequest& request, std::optional<FarmTasks> before)
        : request_(request), before_(std::move(before)) {}

    void add_preview(const BatchJob& job, std::vector<std::string> words) {
        Wrong wrong;
        const Planned planned = planned_preview(words, wrong);
        if (wrong.code != 0) return complain(job, wrong);
        for (const FarmPicture& picture : planned.pictures)
            if (const std::string why = taken_.take(picture.folder, picture.stem, job.place, job.words);
                !why.empty())
                return complain(job, {2, {why}});
        for (const FarmPicture& picture : planned.pictures)
            if (std::find(folders_.begin(), folders_.end(), picture.folder) == folders_.end())
                folders_.push_back(picture.folder);
        FarmJob parts{FarmWork::parts, std::move(words), job.place, 0, 1, {}, 0, planned.pictures};
        const int most = std::min(planned.cost.rows, kMostParts);
        parts.tasks = request_.parts > 0 ? std::min(request_.parts, most)
                                         : split_before(before_, parts).value_or(parts_for(planned.cost));
        if (parts.tasks == 1) parts.work = FarmWork::preview;
        if (!planned.finished) parts.task_s = part_s(planned.cost, parts.tasks);
        tasks.jobs.push_back(parts);
        if (parts.tasks > 1)
            tasks.jobs.push_back({FarmWork::join, parts.words, job.place, 0, 1, {last()}, 0, parts.pictures});
        pictures_.push_back(last());
    }

    void add_command(const BatchJob& job) {
        try {
            tasks.jobs.push_back(
                {FarmWork::command, job.words, job.place, layout_hash_of(job.words), 1, pictures_, 0, {}});
        } catch (const LayoutError& e) {
            complain(job, {2, {e.what()}});
        }
    }

    // After everything: they show what is there.
    void add_pages() {
        std::vector<int> all;
        for (int i = 1; i <= last(); ++i) all.push_back(i);
        for (const std::string& folder : folders_)
            tasks.jobs.push_back({FarmWork::command, {"page", folder}, folder, 0, 1, all, 0, {}});
    }

    void complain(const BatchJob& job, const Wrong& wrong) {
        fmt::print(stderr, "Wrong ({}): {}\n", wrong.code, job.place);
        for (const std::string& line : wrong.said) fmt::print(stderr, "  {}\n", line);
        if (code == 0) code = wrong.code;
    }

    FarmTasks tasks;
    int code = 0;

  private:
    int last() const { return static_cast<int>(tasks.jobs.size()); }

    const HandOutRequest& request_;
    std::optional<FarmTasks> before_;
    PicturesTaken taken_;
    std::vector<std::string> folders_;
    std::vector<int> pictures_;  // jobs that finish pictures
};

// A command's files are its own business: it was done when its state says so. What else is done is seen by
// its files, and a state is written for it that says so.
TasksLeft still_left(const fs::path& folder, const FarmTasks& tasks) {
    const auto states = read_states(folder);
    TasksLeft left(tasks.jobs.size());
    for (std::size_t i = 0; i < tasks.jobs.size(); ++i) {
        const FarmJob& job = tasks.jobs[i];
        const int number = static_cast<int>(i) + 1;
        const std::uint64_t mark = mark_of(tasks, number);
        for (int which = 1; which <= job.tasks; ++which) {
            const auto state = states.find(task_text({number, which}));
            const bool told =
                state != states.end() && state->second.mark == mark && state->second.stage == TaskStage::done;
            const bool done = job.work == FarmWork::command ? told : has_its_files(job, which);
            if (!done) left[i].push_back(which);
            if (told != done)
                write_state(folder, {number, which},
                            state_here(done ? TaskStage::done : TaskStage::left, mark));
        }
    }
    return left;
}

// By its name where it was called so, which then is installed on every machine.
std::string program_name() {
    std::string called = read_file("/proc/self/cmdline");
    called = called.substr(0, called.find('\0'));
    return called == "rakelight" ? called : fs::read_symlink("/proc/self/exe").string();
}

int run_shell(const fs::path& script) {
    std::string path = script.string();
    std::string shell = "sh";
    char* words[] = {shell.data(), path.data(), nullptr};
    pid_t job = -1;
    if (const int error = ::posix_spawnp(&job, "sh", nullptr, nullptr, words, environ); error != 0)
        throw OutputError(fmt::format("cannot start sh: {}", std::generic_category().message(error)));
    int status = 0;
    while (::waitpid(job, &status, 0) < 0)
        if (errno != EINTR) throw OutputError("cannot wait for sh");
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

std::optional<FarmTasks> tasks_before(const fs::path& folder) {
    try {
        return read_tasks(folder);
    } catch (const RequestError&) {
        return {};
    }
}

void write_scripts(const HandOutRequest& request, const fs::path& folder, const FarmTasks& tasks,
                   const TasksLeft& left) {
    const bool slurm = request.on == "slurm";
    const FarmScripts scripts = (slurm ? slurm_scripts : parallel_scripts)(tasks, left, program_name());
    if (!slurm)
        write_file(folder / "machines", request.machines.empty() ? ":\n" : read_file(request.machines));
    write_file(folder / "task.sh", scripts.task);
    write_file(folder / "hand-out.sh", scripts.hand_out);
}

}  // namespace

int hand_out(const HandOutRequest& request, const std::vector<BatchJob>& jobs,
             const std::function<std::vector<std::string>(const BatchJob&)>& words_of) {
    const fs::path folder =
        fs::path(request.into) / (file_stem(fs::path(request.name).stem().string()) + ".tasks");
    make_writable_folder(folder);
    Plan plan(request, tasks_before(folder));
    plan.tasks.on = request.on;
    plan.tasks.threads = request.threads;
    plan.tasks.seen_from = fs::relative(fs::current_path(), folder).string();
    for (const BatchJob& job : jobs)
        if (!job.complaint.empty())
            plan.complain(job, {2, {job.complaint}});
        else if (job.words[0] == "preview")
            plan.add_preview(job, words_of(job));
        else
            plan.add_command(job);
    if (request.page) plan.add_pages();
    write_tasks(folder, plan.tasks);
    const TasksLeft left = still_left(folder, plan.tasks);
    write_scripts(request, folder, plan.tasks, left);
    std::size_t to_do = 0;
    for (const std::vector<int>& of_job : left) to_do += of_job.size();
    const fs::path script = folder / "hand-out.sh";
    fmt::print("{} tasks to do; {}\n", to_do, request.dry_run ? script.string() : folder.string());
    std::fflush(stdout);
    if (!request.dry_run && to_do > 0) {
        const int code = run_shell(script);
        stop_if_interrupted();
        if (request.on == "parallel") fmt::print("{}", status_table(farm_status(folder)));
        if (code != 0)
            throw OutputError(fmt::format("{} ended with code {}: not everything could be {}",
                                          script.string(), code,
                                          request.on == "parallel" ? "done" : "handed out"));
    }
    return plan.code;
}

}  // namespace rakelight
