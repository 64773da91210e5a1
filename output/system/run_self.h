// Runs the program once more, as a job of its own: whatever happens to it, the others go on.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace rakelight {

/// How a job is listened to: each line as it comes, without its end.
struct JobListener {
    std::function<void(std::string_view)> out;
    std::function<void(std::string_view)> err;
    std::function<bool()> cancelled;  ///< once true the job is asked to stop, as by Ctrl-C, and waited for
};

/// Runs a program, a file. \return as run_self. \throws OutputError when it cannot be started.
int run_program(const std::string& program, const std::vector<std::string>& arguments,
                const JobListener& listener);

/// Runs this program with `arguments`. \return its exit code; 128 + number when a signal ended it.
/// \throws OutputError when it cannot be started.
int run_self(const std::vector<std::string>& arguments, const JobListener& listener);

/// Throws what makes this program end as the job did with its exit code, as far as there is such an error.
[[noreturn]] void fail_as_job(int code, const std::string& why);

}  // namespace rakelight
