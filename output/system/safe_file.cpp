#include "output/system/safe_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <fstream>
#include <mutex>
#include <set>
#include <string>
#include <system_error>
#include <vector>

#include "materials/maths/hash.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& path, int error) {
    throw OutputError(
        fmt::format("cannot write {}: {}", path.string(), std::generic_category().message(error)));
}

// This machine, as part of a file name: process numbers count on one machine alone, a folder may be shared.
const std::string& machine() {
    static const std::string name = [] {
        std::array<char, 65> host{};
        return file_stem(::gethostname(host.data(), host.size() - 1) == 0 ? host.data() : "");
    }();
    return name;
}

// The process number keeps two programs that write the same picture out of each other's way.
fs::path hidden_beside(const fs::path& target) {
    return target.parent_path() /
           fmt::format(".{}.{}-{}.tmp", target.filename().string(), machine(), ::getpid());
}

// Whether a file was begun on this machine by a process that is no more.
bool is_left_over(const std::string& name) {
    constexpr std::string_view kEnd = ".tmp";
    if (!name.starts_with('.') || !name.ends_with(kEnd)) return false;
    const std::string_view stem = std::string_view(name).substr(0, name.size() - kEnd.size());
    const std::size_t dash = stem.rfind('-');
    if (dash == std::string_view::npos || !stem.substr(0, dash).ends_with("." + machine())) return false;
    pid_t process = 0;
    const std::string_view digits = stem.substr(dash + 1);
    const auto [end, error] = std::from_chars(digits.begin(), digits.end(), process);
    return error == std::errc() && end == digits.end() && process > 0 && ::kill(process, 0) != 0 &&
           errno == ESRCH;
}

// Clears what killed runs have left in a folder; once for each folder.
void clear_left_over(const fs::path& folder) {
    static std::mutex mutex;
    static std::set<fs::path> cleared;
    {
        const std::lock_guard lock(mutex);
        if (!cleared.insert(folder).second) return;
    }
    std::error_code error;
    for (fs::directory_iterator walk(folder.empty() ? "." : folder, error), end; !error && walk != end;
         walk.increment(error))
        if (std::error_code ignored;
            is_left_over(walk->path().filename().string()) && !walk->is_directory(ignored))
            fs::remove(walk->path(), ignored);
}

// A name that a file has got outlasts a power cut once its folder is on disk as well. Not every file system
// takes this for a folder; the bytes are safe either way.
void keep_name(const fs::path& folder) {
    const int opened = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened < 0) return;
    (void)::fsync(opened);
    ::close(opened);
}

}  // namespace

SafeFile::SafeFile(fs::path target) : target_(std::move(target)), hidden_(hidden_beside(target_)) {
    if (fs::is_directory(target_)) fail(target_, EISDIR);
    clear_left_over(target_.parent_path());
    descriptor_ = ::open(hidden_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (descriptor_ < 0) fail(target_, errno);
}

SafeFile::~SafeFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
    if (!hidden_.empty()) ::unlink(hidden_.c_str());
}

bool SafeFile::write_at(const void* bytes, std::size_t count, std::int64_t offset) noexcept {
    if (first_error_ != 0) return false;
    const char* next = static_cast<const char*>(bytes);
    while (count > 0) {
        const ssize_t written = ::pwrite(descriptor_, next, count, offset);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) {
            first_error_ = written < 0 ? errno : ENOSPC;
            return false;
        }
        next += written;
        offset += written;
        count -= static_cast<std::size_t>(written);
    }
    size_ = std::max(size_, offset);
    return true;
}

void SafeFile::commit() {
    if (first_error_ == 0 && ::fsync(descriptor_) != 0 && errno != EINVAL) first_error_ = errno;
    if (::close(descriptor_) != 0 && first_error_ == 0) first_error_ = errno;
    descriptor_ = -1;
    if (first_error_ == 0 && ::rename(hidden_.c_str(), target_.c_str()) != 0) first_error_ = errno;
    if (first_error_ != 0) fail(target_, first_error_);
    hidden_.clear();
    keep_name(target_.parent_path());
}

void write_file(const fs::path& target, std::string_view bytes) {
    SafeFile file(target);
    file.write_at(bytes.data(), bytes.size(), 0);
    file.commit();
}

std::string read_file(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (fs::is_directory(path))
        throw RequestError(fmt::format("cannot read {}: found a folder, expected a file", path.string()));
    if (!in) throw RequestError(fmt::format("cannot read {}: {}", path.string(), std::strerror(errno)));
    std::string bytes;
    std::vector<char> some(1 << 16);
    while (in.read(some.data(), static_cast<std::streamsize>(some.size())), in.gcount() > 0)
        bytes.append(some.data(), static_cast<std::size_t>(in.gcount()));
    if (in.bad()) throw RequestError(fmt::format("cannot read {}: {}", path.string(), std::strerror(errno)));
    return bytes;
}

void make_writable_folder(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        throw OutputError(fmt::format("cannot make the folder {}: {}", folder.string(), error.message()));
    const SafeFile probe(folder / "rakelight-probe");  // goes away by itself
}

std::string file_stem(std::string_view name) {
    constexpr std::size_t kMostBytes = 120;
    std::string stem(name.empty() || name.front() == '.' ? 1 : 0, '_');
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           c == '.' || c == '-' || c == '_' || static_cast<unsigned char>(c) >= 0x80;
        stem += plain ? c : '-';
    }
    if (stem.size() > kMostBytes) {
        const std::string mark =
            fmt::format("-{:08x}", hash_text(name) >> 32);  // what is cut off still tells
        std::size_t end = kMostBytes - mark.size();
        while (end > 0 && (static_cast<unsigned char>(stem[end]) & 0xc0) == 0x80)
            --end;  // whole UTF-8 letters
        stem.resize(end);
        stem += mark;
    }
    return stem;
}

fs::path finished_folder(const fs::path& into, const fs::path& layout_file,
                         std::span<const std::string> changes) {
    std::string name = layout_file.stem().string();
    for (const std::string& change : changes) {
        const std::string key = change.substr(0, change.find('='));
        std::size_t words = key.rfind('.');
        const auto is_shared = [&](std::size_t from) {
            return std::any_of(changes.begin(), changes.end(), [&](const std::string& other) {
                const std::string_view its = std::string_view(other).substr(0, other.find('='));
                return its != key && its.ends_with(std::string_view(key).substr(from));
            });
        };
        while (words != std::string::npos && words > 0 && is_shared(words)) words = key.rfind('.', words - 1);
        const std::size_t from = words == std::string::npos ? 0 : words + 1;
        name += '_' + key.substr(from) + '-' + change.substr(std::min(change.size(), key.size() + 1));
    }
    return into / file_stem(name);
}

}  // namespace rakelight
