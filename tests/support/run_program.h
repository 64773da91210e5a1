// Runs the built program as a person would, in a folder of the test's own.
#pragma once

#include <sys/wait.h>

#include <cstdlib>
#include <string>

#include "tests/support/test_folder.h"

namespace rakelight::test {

struct Outcome {
    int code = -1;
    std::string out;
    std::string err;
};

// Runs `before; rakelight arguments` in a folder. Arguments are for the shell.
inline Outcome run_in(const Folder& folder, const std::string& arguments, const std::string& before = ":") {
    const std::string command = "cd '" + folder.path().string() + "' && { " + before +
                                "; } && exec '" RAKELIGHT_PROGRAM "' " + arguments + " >.out 2>.err";
    const int status = std::system(("(" + command + ")").c_str());
    Outcome o{WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), bytes_of(folder / ".out"),
              bytes_of(folder / ".err")};
    std::filesystem::remove(folder / ".out");
    std::filesystem::remove(folder / ".err");
    return o;
}

inline bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// What it was asked for is wrong: it ends with code 2 and says so, among other things in these words.
inline void expect_refused(const Folder& folder, const std::string& arguments, const std::string& part) {
    const Outcome o = run_in(folder, arguments);
    EXPECT_EQ(o.code, 2) << arguments;
    EXPECT_TRUE(holds(o.err, part)) << arguments << "\n" << o.err;
}

}  // namespace rakelight::test
