// A frame as it is handed over: a binary PPM of 8 bits, sRGB.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rakelight {

struct Frame {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgb;
};

/// \throws std::runtime_error naming the file that is no such picture.
Frame read_frame(const std::string& path);

/// Each pixel the mean of `by` times `by`, in linear light; what is left over at the right and below is cut
/// off.
Frame shrunk(const Frame& frame, int by);

}  // namespace rakelight
