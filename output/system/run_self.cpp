#include "output/system/run_self.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <system_error>

#include "output/system/errors.h"

namespace rakelight {

namespace {

[[noreturn]] void fail(int error) {
    throw OutputError(fmt::format("cannot start a job: {}", std::generic_category().message(error)));
}

// The reading end of a pipe, cut into lines.
class LinePipe {
  public:
    LinePipe() {
        if (::pipe2(ends_.data(), O_CLOEXEC) != 0) fail(errno);
    }
    ~LinePipe() {
        for (const int end : ends_)
            if (end >= 0) ::close(end);
    }
    LinePipe(const LinePipe&) = delete;
    LinePipe& operator=(const LinePipe&) = delete;

    int reading() const { return ends_[0]; }
    int writing() const { return ends_[1]; }
    void close_writing() {
        ::close(ends_[1]);
        ends_[1] = -1;
    }

    /// Reads what is there; false at the end.
    bool read(const std::function<void(std::string_view)>& take) {
        std::array<char, 4096> bytes;
        const ssize_t count = ::read(ends_[0], bytes.data(), bytes.size());
        if (count < 0 && (errno == EINTR || errno == EAGAIN)) return true;
        if (count > 0) line_.append(bytes.data(), static_cast<std::size_t>(count));
        for (std::size_t end; (end = line_.find('\n')) != std::string::npos; line_.erase(0, end + 1))
            take(std::string_view(line_).substr(0, end));
        if (count <= 0 && !line_.empty()) take(line_);
        return count > 0;
    }

  private:
    std::array<int, 2> ends_{-1, -1};
    std::string line_;
};

// In the job: a group of its own, so that Ctrl-C reaches it once and through us, and a request to end when we
// are gone, so that nobody works on unseen.
[[noreturn]] void become(const char* program, char* const* words, const LinePipe& out, const LinePipe& err,
                         pid_t from) {
    ::setpgid(0, 0);
    ::prctl(PR_SET_PDEATHSIG, SIGTERM);
    if (::getppid() == from && ::dup2(out.writing(), STDOUT_FILENO) >= 0 &&
        ::dup2(err.writing(), STDERR_FILENO) >= 0)
        ::execv(program, words);
    ::_exit(127);
}

pid_t start(const std::string& program, const std::vector<std::string>& arguments, const LinePipe& out,
            const LinePipe& err) {
    if (::access(program.c_str(), X_OK) != 0) fail(errno);
    std::vector<char*> words{const_cast<char*>("rakelight")};
    for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
    words.push_back(nullptr);
    const pid_t us = ::getpid();
    const pid_t job = ::fork();
    if (job < 0) fail(errno);
    if (job == 0) become(program.c_str(), words.data(), out, err, us);
    return job;
}

}  // namespace

int run_self(const std::vector<std::string>& arguments, const JobListener& listener) {
    return run_program("/proc/self/exe", arguments, listener);
}

int run_program(const std::string& program, const std::vector<std::string>& arguments,
                const JobListener& listener) {
    LinePipe out;
    LinePipe err;
    const pid_t job = start(program, arguments, out, err);
    out.close_writing();
    err.close_writing();
    std::array<pollfd, 2> waiting{{{out.reading(), POLLIN, 0}, {err.reading(), POLLIN, 0}}};
    bool told = false;
    while (waiting[0].fd >= 0 || waiting[1].fd >= 0) {
        constexpr int kPause_ms = 200;
        const int ready = ::poll(waiting.data(), waiting.size(), kPause_ms);
        if (!told && listener.cancelled && listener.cancelled()) {
            ::kill(job, SIGINT);
            told = true;
        }
        if (ready <= 0) continue;
        if (waiting[0].revents != 0 && !out.read(listener.out)) waiting[0].fd = -1;
        if (waiting[1].revents != 0 && !err.read(listener.err)) waiting[1].fd = -1;
    }
    int status = 0;
    while (::waitpid(job, &status, 0) < 0)
        if (errno != EINTR) fail(errno);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

void fail_as_job(int code, const std::string& why) {
    if (code == 2) throw RequestError(why);
    if (code == 3) throw OutputError(why);
    throw std::runtime_error(why);
}

}  // namespace rakelight
