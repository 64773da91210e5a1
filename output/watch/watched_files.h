// Files that are looked at again and again, to see when somebody has saved one.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace rakelight {

/// Notices a file that was written, replaced, made or removed, by its time, size and number on disk; works on
/// every file system, also those of other machines.
class WatchedFiles {
  public:
    /// From now on these, as they are now. Names that are no files count too: they may appear.
    void watch(std::vector<std::string> paths);

    /// These as well. Those that were watched before are judged as before.
    void watch_also(const std::vector<std::string>& paths);

    /// Whether any is not as it was when `watch` was called. Looks at most every 30 ms; between, nothing has
    /// changed.
    bool changed();

    /// Waits until one has changed and none has for 30 ms, so that a file is not read while it is written; or
    /// until `stop` says so. Returns whether one has changed.
    bool wait(const std::function<bool()>& stop);

    /// Those that have changed.
    std::vector<std::string> which() const;

  private:
    struct Look {
        std::int64_t written_ns = 0, bytes = -1;
        std::uint64_t number = 0;
        friend bool operator==(const Look&, const Look&) = default;
    };
    static Look look_at(const std::string& path);
    std::vector<Look> looks() const;

    std::vector<std::string> paths_;
    std::vector<Look> before_;
    double looked_s_ = 0;
    bool changed_ = false;
};

}  // namespace rakelight
