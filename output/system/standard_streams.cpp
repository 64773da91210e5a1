#include "output/system/standard_streams.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

namespace rakelight {

namespace {

// Says that all was written, whatever came of it.
ssize_t write_or_drop(void*, const char* bytes, std::size_t count) {
    for (std::size_t done = 0; done < count;) {
        const ssize_t written = ::write(STDERR_FILENO, bytes + done, count - done);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) break;
        done += static_cast<std::size_t>(written);
    }
    return static_cast<ssize_t>(count);
}

}  // namespace

void keep_standard_streams() {
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF)
            ::open("/dev/null", stream == STDIN_FILENO ? O_RDONLY : O_WRONLY);
    if (::isatty(STDERR_FILENO)) return;
    std::FILE* const patient = ::fopencookie(nullptr, "w", {nullptr, write_or_drop, nullptr, nullptr});
    if (!patient) return;
    std::setvbuf(patient, nullptr, _IONBF, 0);
    stderr = patient;
}

}  // namespace rakelight
