// Jobs: programs that are started, heard and ended.
#include "output/system/run_self.h"

#include <gtest/gtest.h>
#include <poll.h>
#include <signal.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <string>

namespace rakelight {
namespace {

TEST(RunProgram, HearsBothAndTheCode) {
    std::string out, err;
    const JobListener listener{
        [&](std::string_view line) { out += line; }, [&](std::string_view line) { err += line; }, {}};
    EXPECT_EQ(run_program("/bin/sh", {"-c", "echo slate; echo pumice >&2; exit 3"}, listener), 3);
    EXPECT_EQ(out, "slate");
    EXPECT_EQ(err, "pumice");
}

TEST(RunProgram, NoSuchProgram) {
    EXPECT_THROW(run_program("/nowhere/at-all", {}, {}), std::runtime_error);
}

// A process as one that can be waited for, whoever its parent is (pidfd_open(2)).
int watched(pid_t process) {
    return static_cast<int>(::syscall(SYS_pidfd_open, process, 0));
}

TEST(RunProgram, EndsWhenItsParentIsGone) {
    std::array<int, 2> ends{};
    ASSERT_EQ(::pipe(ends.data()), 0);
    const pid_t parent = ::fork();
    if (parent == 0) {
        const auto tell = [&](std::string_view line) {
            const pid_t job = std::atoi(std::string(line).c_str());
            (void)!::write(ends[1], &job, sizeof job);
        };
        run_program("/bin/sh", {"-c", "echo $$; exec sleep 600"}, {tell, [](std::string_view) {}, {}});
        ::_exit(0);
    }
    pid_t job = 0;
    ASSERT_EQ(::read(ends[0], &job, sizeof job), static_cast<ssize_t>(sizeof job));
    pollfd ended{watched(job), POLLIN, 0};
    ASSERT_GE(ended.fd, 0);
    EXPECT_EQ(::poll(&ended, 1, 0), 0);
    ::kill(parent, SIGKILL);
    EXPECT_EQ(::poll(&ended, 1, 20'000), 1) << "it works on unseen";
    ::kill(job, SIGKILL);
    ::waitpid(parent, nullptr, 0);
    for (const int fd : {ended.fd, ends[0], ends[1]}) ::close(fd);
}

}  // namespace
}  // namespace rakelight
