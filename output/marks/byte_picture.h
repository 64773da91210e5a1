// A photograph or scan as bytes, for the programs that look at it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <glm/glm.hpp>
#include <string>
#include <vector>

namespace rakelight {

struct BytePicture {
    glm::ivec2 size_px{};
    std::vector<std::uint8_t> rgb;  ///< as a screen shows it, top row first
};

/// Whatever OpenImageIO opens, in colour or grey, turned upright as its file says. \throws std::runtime_error
/// with what was found and expected, without the file's name: no such file, no picture, a broken one, too
/// small or too large.
BytePicture read_byte_picture(const std::filesystem::path& path);

/// As a binary PPM (netpbm).
std::string ppm_of(const BytePicture& picture);

}  // namespace rakelight
