#include "output/farm/scripts.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/farm/part_size.h"
#include "output/farm/shell_words.h"
#include "output/film/scene_hash.h"

namespace rakelight {

namespace {

// Goes to the folder of the script, whatever its name: no word of it is read by the shell.
constexpr std::string_view kGoThere = "case $0 in */*) cd -- \"${0%/*}\" ;; esac\nmkdir -p logs\n";

std::string task_script(const std::string& program, const FarmTasks& tasks, std::string_view name) {
    return fmt::format("#!/bin/sh\n# One task of those in tasks.json.\nexec {} task --of {} . \"{}\"\n",
                       shell_quoted(program), hash_digits(mark_of(tasks)), name);
}

// Of the jobs before it, those that are handed out.
std::vector<int> waits_for(const FarmJob& job, const TasksLeft& left) {
    std::vector<int> jobs;
    for (const int before : job.after)
        if (!left[static_cast<std::size_t>(before - 1)].empty()) jobs.push_back(before);
    return jobs;
}

std::string slurm_options(const FarmTasks& tasks, const FarmJob& job, const TasksLeft& left) {
    std::string options =
        tasks.threads > 0 ? fmt::format(" --cpus-per-task={}", tasks.threads) : std::string(" --exclusive");
    if (job.task_s > 0) options += fmt::format(" --time={}", time_limit_min(job.task_s));
    const std::vector<int> before = waits_for(job, left);
    if (!before.empty()) {
        // A sheet or a page is made of what there is; a picture needs all its parts.
        options += job.work == FarmWork::join ? " --kill-on-invalid-dep=yes --dependency=afterok"
                                              : " --dependency=afterany";
        for (const int number : before) options += fmt::format(":$job_{}", number);
    }
    return options;
}

// How many jobs have to end one after another before this one.
std::vector<int> stages(const FarmTasks& tasks) {
    std::vector<int> stage;
    for (const FarmJob& job : tasks.jobs) {
        int own = 0;
        for (const int before : job.after)
            own = std::max(own, stage[static_cast<std::size_t>(before - 1)] + 1);
        stage.push_back(own);
    }
    return stage;
}

}  // namespace

std::string array_text(const std::vector<int>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t end = i + 1;
        while (end < numbers.size() && numbers[end] == numbers[end - 1] + 1) ++end;
        if (!text.empty()) text += ',';
        text +=
            end - i == 1 ? std::to_string(numbers[i]) : fmt::format("{}-{}", numbers[i], numbers[end - 1]);
        i = end;
    }
    return text;
}

FarmScripts slurm_scripts(const FarmTasks& tasks, const TasksLeft& left, const std::string& program) {
    std::string text =
        "#!/bin/sh\n# Hands the tasks of tasks.json to Slurm; what was handed out before is called back.\n"
        "set -eu\n";
    text += kGoThere;
    text +=
        "if [ -s slurm-jobs ]; then\n"
        "    scancel $(cat slurm-jobs) 2>/dev/null || true\n"
        "    for job in $(cat slurm-jobs); do\n"
        "        while [ -n \"$(squeue -h -j \"$job\" 2>/dev/null)\" ]; do sleep 1; done\n"
        "    done\n"
        "fi\n"
        ": >slurm-jobs\n"
        "hand() {\n"
        "    name=$1\n"
        "    shift\n"
        "    id=$(sbatch --parsable --requeue --open-mode=append --job-name=\"rakelight-$name\" \\\n"
        "        --output=\"logs/$name-%a.log\" \"$@\" task.sh \"$name\")\n"
        "    id=${id%%;*}\n"
        "    echo \"$id\" >>slurm-jobs\n"
        "}\n";
    for (std::size_t i = 0; i < tasks.jobs.size(); ++i) {
        if (left[i].empty()) continue;
        text += fmt::format("hand {0} --array={1}{2}\njob_{0}=$id\n", i + 1, array_text(left[i]),
                            slurm_options(tasks, tasks.jobs[i], left));
    }
    return {text, task_script(program, tasks, "$1-$SLURM_ARRAY_TASK_ID")};
}

FarmScripts parallel_scripts(const FarmTasks& tasks, const TasksLeft& left, const std::string& program) {
    // A task that takes N threads has the Nth part of a machine's.
    const std::string jobs =
        tasks.threads > 0 ? fmt::format("{}%", std::max(1, 100 / tasks.threads)) : std::string("1");
    std::string text =
        "#!/bin/sh\n# Hands the tasks of tasks.json to the machines of the file machines.\nset -u\n";
    text += kGoThere;
    text += fmt::format(
        "RAKELIGHT_TASKS=$PWD\n"
        "export RAKELIGHT_TASKS\n"
        "code=0\n"
        "hand() {{\n"
        "    parallel --will-cite --sshloginfile machines --env RAKELIGHT_TASKS --jobs {} --retries 2 \\\n"
        "        'cd \"$RAKELIGHT_TASKS\" && exec sh ./task.sh {{}} >>logs/{{}}.log 2>&1' || code=$?\n"
        "}}\n",
        jobs);
    const std::vector<int> stage = stages(tasks);
    const int last = stage.empty() ? -1 : *std::max_element(stage.begin(), stage.end());
    for (int now = 0; now <= last; ++now) {
        std::string names;
        for (std::size_t i = 0; i < tasks.jobs.size(); ++i)
            if (stage[i] == now)
                for (const int which : left[i]) names += task_text({static_cast<int>(i) + 1, which}) + '\n';
        if (!names.empty()) text += "hand <<'tasks'\n" + names + "tasks\n";
    }
    return {text + "exit \"$code\"\n", task_script(program, tasks, "$1")};
}

}  // namespace rakelight
