// What of the tasks of a folder is done, running, failed and left.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/farm/task_state.h"
#include "output/farm/tasks.h"

namespace rakelight {

struct TaskCounts {
    int tasks = 0;
    int done = 0;
    int running = 0;
    int failed = 0;
    int left = 0;  ///< not begun, or begun and stopped
};

struct JobStatus {
    std::string title;
    FarmWork work = FarmWork::command;
    TaskCounts counts;
    double share = 0;  ///< of its tasks done, begun ones as far as they are, 0..1
};

struct FailedTask {
    std::string task;  ///< "2-17"
    int code = 0;
    std::string machine;
    std::string log;  ///< within the folder
};

struct FarmStatus {
    std::vector<JobStatus> jobs;
    TaskCounts all;
    std::vector<FailedTask> failures;
};

/// \throws RequestError as read_tasks.
FarmStatus farm_status(const std::filesystem::path& folder);

/// A table for people, a line a job.
std::string status_table(const FarmStatus& status);

/// JSON "rakelight status".
std::string status_json(const FarmStatus& status);

}  // namespace rakelight
