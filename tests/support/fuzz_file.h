// Bytes of a fuzzer as a file, for readers that take no text.
#pragma once

#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>

namespace rakelight::test {

/// A file of this process, in memory where the system has such a folder, with the bytes of this input. The
/// next input takes its place.
inline std::filesystem::path fuzz_file(const std::uint8_t* data, std::size_t size,
                                       const std::string& extension) {
    static const std::filesystem::path folder = [] {
        std::error_code error;
        const bool in_memory = std::filesystem::is_directory("/dev/shm", error);
        const auto made =
            (in_memory ? std::filesystem::path("/dev/shm") : std::filesystem::temp_directory_path()) /
            ("rakelight-fuzz-" + std::to_string(::getpid()));
        std::filesystem::create_directories(made);
        return made;
    }();
    const std::filesystem::path file = folder / ("input" + extension);
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
    return file;
}

}  // namespace rakelight::test
