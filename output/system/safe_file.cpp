#include "output/system/safe_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <system_error>

#include "output/system/errors.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& path, int error) {
    throw OutputError(
        fmt::format("cannot write {}: {}", path.string(), std::generic_category().message(error)));
}

// The process number keeps two programs that write the same picture out of each other's way.
fs::path hidden_beside(const fs::path& target) {
    return target.parent_path() / fmt::format(".{}.{}.tmp", target.filename().string(), ::getpid());
}

}  // namespace

SafeFile::SafeFile(fs::path target) : target_(std::move(target)), hidden_(hidden_beside(target_)) {
    if (fs::is_directory(target_)) fail(target_, EISDIR);
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
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
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
        std::size_t end = kMostBytes;
        while (end > 0 && (static_cast<unsigned char>(stem[end]) & 0xc0) == 0x80)
            --end;  // whole UTF-8 letters
        stem.resize(end);
    }
    return stem;
}

fs::path finished_folder(const fs::path& into, const fs::path& layout_file) {
    return into / file_stem(layout_file.stem().string());
}

}  // namespace rakelight
