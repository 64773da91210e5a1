// Shell scripts that hand tasks out: to Slurm (sbatch(1), 22.05) or to a few machines by GNU Parallel
// (parallel(1), 2022) over ssh. They hold no path but the program's: they work from the folder they lie in.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/farm/tasks.h"

namespace rakelight {

/// What of each job is still to be handed out: places of tasks within the job, rising; a job with none is
/// left out.
using TasksLeft = std::vector<std::vector<int>>;

struct FarmScripts {
    std::string hand_out;  ///< hand-out.sh: run once, where jobs can be queued from
    std::string task;      ///< task.sh: run for each task, on any machine
};

/// `program`: how the program is called on every machine, a path or a name. A task is queued again when its
/// machine fails; one that waits for parts is dropped when a part fails.
FarmScripts slurm_scripts(const FarmTasks& tasks, const TasksLeft& left, const std::string& program);

/// One stage after another: jobs whose tasks wait for none, then those that wait for these. The machines are
/// read from the file `machines` beside the script, one on each line, ":" for the one it runs on.
FarmScripts parallel_scripts(const FarmTasks& tasks, const TasksLeft& left, const std::string& program);

/// "1-4,7,9-12": rising numbers as sbatch takes an array.
std::string array_text(const std::vector<int>& numbers);

}  // namespace rakelight
