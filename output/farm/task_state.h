// What became of a task: a small file of its own in the folder `state`, written anew every few seconds while
// the task runs, so that a machine that went off is told from one that works.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "output/farm/tasks.h"

namespace rakelight {

enum class TaskStage { left, running, done, failed };

struct TaskState {
    TaskStage stage = TaskStage::left;
    std::uint64_t mark = 0;  ///< of the job it was done for: see mark_of
    int code = 0;            ///< exit code, once it ended
    std::string machine;     ///< name of the machine; no blanks
    int process = 0;         ///< its number there
    double share = 0;        ///< of the task done, 0..1
};

/// Seconds between two writings while it runs, and those after which a running task counts as left.
inline constexpr double kSignOfLife_s = 10;
inline constexpr double kSilent_s = 60;

/// Writes the state of a task. Trouble with the shared folder is passed over: the work matters more.
void write_state(const std::filesystem::path& folder, const TaskName& name, const TaskState& state) noexcept;

/// A state for this process on this machine.
TaskState state_here(TaskStage stage, std::uint64_t mark);

/// All states of a folder by the names of their tasks; damaged ones are left out. What says that it runs but
/// was silent too long, by the clock of the folder, or has no process any more on this machine, is left.
std::map<std::string, TaskState> read_states(const std::filesystem::path& folder);

}  // namespace rakelight
