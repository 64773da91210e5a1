#include "output/farm/status.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "output/system/program.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kStatusVersion = 1;

std::string_view work_word(FarmWork work) {
    switch (work) {
        case FarmWork::preview:
            return "pictures";
        case FarmWork::parts:
            return "parts";
        case FarmWork::join:
            return "joined";
        case FarmWork::command:
            return "command";
    }
    return "";
}

void count(TaskCounts& counts, TaskStage stage) {
    ++counts.tasks;
    switch (stage) {
        case TaskStage::left:
            ++counts.left;
            break;
        case TaskStage::running:
            ++counts.running;
            break;
        case TaskStage::done:
            ++counts.done;
            break;
        case TaskStage::failed:
            ++counts.failed;
            break;
    }
}

void add(TaskCounts& sum, const TaskCounts& more) {
    sum.tasks += more.tasks;
    sum.done += more.done;
    sum.running += more.running;
    sum.failed += more.failed;
    sum.left += more.left;
}

Json json_of(const TaskCounts& counts) {
    return {{"tasks", counts.tasks},
            {"done", counts.done},
            {"running", counts.running},
            {"failed", counts.failed},
            {"left", counts.left}};
}

}  // namespace

FarmStatus farm_status(const std::filesystem::path& folder) {
    const FarmTasks tasks = read_tasks(folder);
    const auto states = read_states(folder);
    FarmStatus status;
    for (int number = 1; number <= static_cast<int>(tasks.jobs.size()); ++number) {
        const FarmJob& job = tasks.jobs[static_cast<std::size_t>(number - 1)];
        const std::uint64_t mark = mark_of(tasks, number);
        JobStatus of_job{title_of(job), job.work, {}, 0};
        for (int which = 1; which <= job.tasks; ++which) {
            const std::string name = task_text({number, which});
            const auto found = states.find(name);
            // A state of other work, with the same name by chance, is none of this.
            const TaskState state =
                found != states.end() && found->second.mark == mark ? found->second : TaskState{};
            count(of_job.counts, state.stage);
            of_job.share += state.share / job.tasks;
            if (state.stage == TaskStage::failed)
                status.failures.push_back({name, state.code, state.machine, "logs/" + name + ".log"});
        }
        add(status.all, of_job.counts);
        status.jobs.push_back(std::move(of_job));
    }
    return status;
}

std::string status_table(const FarmStatus& status) {
    std::string text = fmt::format("{:>4}  {:<9}{:>6}{:>7}{:>9}{:>8}{:>6}{:>7}   {}\n", "job", "", "tasks",
                                   "done", "running", "failed", "left", "share", "what");
    const auto row = [&](std::string_view number, std::string_view work, const TaskCounts& n,
                         const std::string& share, std::string_view what) {
        text += fmt::format("{:>4}  {:<9}{:>6}{:>7}{:>9}{:>8}{:>6}{:>7}   {}\n", number, work, n.tasks,
                            n.done, n.running, n.failed, n.left, share, what);
    };
    for (std::size_t i = 0; i < status.jobs.size(); ++i) {
        const JobStatus& job = status.jobs[i];
        row(std::to_string(i + 1), work_word(job.work), job.counts, fmt::format("{:.0f} %", 100 * job.share),
            job.title);
    }
    row("all", "", status.all, "", "");
    for (const FailedTask& each : status.failures)
        text += fmt::format("Failed ({}): {} on {}; see {}\n", each.code, each.task, each.machine, each.log);
    while (text.find(" \n") != text.npos) text.erase(text.find(" \n"), 1);
    return text;
}

std::string status_json(const FarmStatus& status) {
    Json body = json_of(status.all);
    body["jobs"] = Json::array();
    for (const JobStatus& job : status.jobs) {
        Json j{{"what", job.title}, {"work", work_word(job.work)}, {"share", job.share}};
        j.update(json_of(job.counts));
        body["jobs"].push_back(std::move(j));
    }
    body["failures"] = Json::array();
    for (const FailedTask& each : status.failures)
        body["failures"].push_back(
            {{"task", each.task}, {"code", each.code}, {"machine", each.machine}, {"log", each.log}});
    return json_text(json_head("status", kStatusVersion, {kProgram, "", {}}), body);
}

}  // namespace rakelight
