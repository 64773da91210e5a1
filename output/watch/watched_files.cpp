#include "output/watch/watched_files.h"

#include <sys/stat.h>

#include <algorithm>
#include <chrono>
#include <thread>
#include <utility>

namespace rakelight {

namespace {

constexpr double kEvery_s = 0.03;

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void rest() {
    std::this_thread::sleep_for(std::chrono::duration<double>(kEvery_s));
}

}  // namespace

WatchedFiles::Look WatchedFiles::look_at(const std::string& path) {
    struct stat s {};
    if (stat(path.c_str(), &s) != 0) return {};
    return {std::int64_t{s.st_mtim.tv_sec} * 1'000'000'000 + s.st_mtim.tv_nsec, s.st_size, s.st_ino};
}

std::vector<WatchedFiles::Look> WatchedFiles::looks() const {
    std::vector<Look> looks;
    for (const std::string& path : paths_) looks.push_back(look_at(path));
    return looks;
}

void WatchedFiles::watch(std::vector<std::string> paths) {
    paths_ = std::move(paths);
    before_ = looks();
    changed_ = false;
}

void WatchedFiles::watch_also(const std::vector<std::string>& paths) {
    for (const std::string& path : paths) {
        if (std::ranges::find(paths_, path) != paths_.end()) continue;
        paths_.push_back(path);
        before_.push_back(look_at(path));
    }
}

bool WatchedFiles::changed() {
    if (changed_ || now_s() - looked_s_ < kEvery_s) return changed_;
    looked_s_ = now_s();
    return changed_ = looks() != before_;
}

bool WatchedFiles::wait(const std::function<bool()>& stop) {
    while (!changed()) {
        if (stop()) return false;
        rest();
    }
    for (std::vector<Look> last = looks(); !stop();) {
        rest();
        if (std::vector<Look> now = looks(); std::exchange(last, std::move(now)) == last) break;
    }
    return true;
}

std::vector<std::string> WatchedFiles::which() const {
    std::vector<std::string> changed;
    for (std::size_t i = 0; i < paths_.size(); ++i)
        if (look_at(paths_[i]) != before_[i]) changed.push_back(paths_[i]);
    return changed;
}

}  // namespace rakelight
