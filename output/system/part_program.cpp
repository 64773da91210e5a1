#include "output/system/part_program.h"

#include <fmt/format.h>
#include <unistd.h>

namespace rakelight {

std::optional<std::filesystem::path> find_part(const std::string& name) {
    std::error_code error;
    const auto here = std::filesystem::read_symlink("/proc/self/exe", error).parent_path();
    for (const char* place : {"../libexec/rakelight", ".", "../output"})
        if (const auto path = here / place / name; std::filesystem::is_regular_file(path, error)) return path;
    return std::nullopt;
}

std::string part_missing(const std::string& name) {
    return fmt::format(
        "the program needs its part {}, which is built where libopencv-contrib-dev is installed", name);
}

PassingFile::PassingFile(const std::string& name)
    : path(std::filesystem::temp_directory_path() / fmt::format("rakelight-{}-{}", ::getpid(), name)) {}

PassingFile::~PassingFile() {
    std::error_code ignored;
    std::filesystem::remove(path, ignored);
}

}  // namespace rakelight
