// Programs of their own that belong to this one: components that may be missing.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace rakelight {

/// Where the part of this name is: installed, in the build's folder, or in that of its tests beside it. None
/// when it was not built.
std::optional<std::filesystem::path> find_part(const std::string& name);

/// "the program needs its part NAME, which is built where libopencv-contrib-dev is installed": for messages.
std::string part_missing(const std::string& name);

/// A name in the system's folder for passing files; the file goes away with the object.
struct PassingFile {
    /// `name`: the end of its name.
    explicit PassingFile(const std::string& name);
    ~PassingFile();
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    std::filesystem::path path;
};

}  // namespace rakelight
