// Jobs of a batch handed to many machines.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "output/batch/batch_list.h"

namespace rakelight {

struct HandOutRequest {
    std::string on;        ///< "slurm" or "parallel"
    std::string into;      ///< folder that previews go to
    std::string machines;  ///< file of machines for "parallel"; empty = this one
    std::string name;      ///< of the first list or layout: what the tasks are called after
    int parts = 0;         ///< of each preview; 0 = as many as set-up lets be
    int threads = 0;       ///< of each task; 0 = all of a machine
    bool page = false;     ///< a page of each folder of previews in the end
    bool dry_run = false;  ///< write the scripts and leave it at that
};

/// Writes tasks and scripts and, unless it is a dry run, hands them out. `words_of`: a job's words with what
/// was asked for all. \return exit code: that of the first job that cannot be handed out, 0 when there is
/// none. \throws RequestError, OutputError.
int hand_out(const HandOutRequest& request, const std::vector<BatchJob>& jobs,
             const std::function<std::vector<std::string>(const BatchJob&)>& words_of);

}  // namespace rakelight
