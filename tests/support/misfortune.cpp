// A library to load before a program (LD_PRELOAD): what may befall it, as the variable MISFORTUNE says.
//   "cut 17"     the power goes at its 17th write, fsync or rename: what was not yet fsynced is lost
//   "quota 2000" no more than so many bytes are written: "Disk quota exceeded"
//   "clock"      the clock of the day runs backwards
// A power cut leaves names as they are and empties files whose bytes had not been fsynced when they got their
// name, which is what a journalling file system may do.
#include <dlfcn.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <map>
#include <mutex>
#include <string>
#include <utility>

namespace {

struct Misfortune {
    long cut_at = 0;        // 0 = never
    long quota_bytes = -1;  // -1 = none
    bool clock = false;
};

const Misfortune& misfortune() {
    static const Misfortune told = [] {
        Misfortune m;
        const char* text = getenv("MISFORTUNE");
        if (text && !strncmp(text, "cut ", 4)) m.cut_at = atol(text + 4);
        if (text && !strncmp(text, "quota ", 6)) m.quota_bytes = atol(text + 6);
        m.clock = text && !strcmp(text, "clock");
        return m;
    }();
    return told;
}

using File = std::pair<dev_t, ino_t>;

std::mutex all;
long calls = 0, written = 0;
std::map<File, std::string> unsynced;  // files with bytes that a power cut takes, by the name known last

std::string name_of(int descriptor) {
    char link[64], name[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", descriptor);
    const ssize_t length = readlink(link, name, sizeof name - 1);
    return length > 0 ? std::string(name, static_cast<size_t>(length)) : "";
}

bool file_of(int descriptor, File& file) {
    struct stat about {};
    if (fstat(descriptor, &about) != 0 || !S_ISREG(about.st_mode)) return false;
    file = {about.st_dev, about.st_ino};
    return true;
}

void count_and_cut() {
    if (misfortune().cut_at == 0 || ++calls < misfortune().cut_at) return;
    for (const auto& [file, name] : unsynced)
        if (truncate(name.c_str(), 0) != 0) continue;  // gone
    kill(getpid(), SIGKILL);
}

template <class Function>
Function real(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}

ssize_t write_at(int descriptor, const void* bytes, size_t count, off_t at) {
    using Write = ssize_t (*)(int, const void*, size_t, off_t);
    static const auto next = real<Write>("pwrite64");
    const std::lock_guard lock(all);
    count_and_cut();
    written += static_cast<long>(count);
    if (misfortune().quota_bytes >= 0 && written > misfortune().quota_bytes) {
        errno = EDQUOT;
        return -1;
    }
    if (File file; file_of(descriptor, file)) unsynced[file] = name_of(descriptor);
    return next(descriptor, bytes, count, at);
}

}  // namespace

extern "C" {

ssize_t pwrite(int descriptor, const void* bytes, size_t count, off_t at) {
    return write_at(descriptor, bytes, count, at);
}

ssize_t pwrite64(int descriptor, const void* bytes, size_t count, off64_t at) {
    return write_at(descriptor, bytes, count, at);
}

int fsync(int descriptor) {
    static const auto next = real<int (*)(int)>("fsync");
    const std::lock_guard lock(all);
    count_and_cut();
    if (File file; file_of(descriptor, file)) unsynced.erase(file);
    return next(descriptor);
}

int rename(const char* from, const char* to) noexcept {
    static const auto next = real<int (*)(const char*, const char*)>("rename");
    const std::lock_guard lock(all);
    count_and_cut();
    const int done = next(from, to);
    struct stat about {};
    if (done == 0 && stat(to, &about) == 0)
        if (const auto at = unsynced.find({about.st_dev, about.st_ino}); at != unsynced.end())
            at->second = to;
    return done;
}

int clock_gettime(clockid_t which, struct timespec* now) noexcept {
    static const auto next = real<int (*)(clockid_t, struct timespec*)>("clock_gettime");
    static time_t first_s = 0;
    const int done = next(which, now);
    if (done != 0 || which != CLOCK_REALTIME || !misfortune().clock) return done;
    if (first_s == 0) first_s = now->tv_sec;
    now->tv_sec = first_s - 3600 * (1 + now->tv_sec - first_s);
    return done;
}

}  // extern "C"
