// The bytes of a Radiance picture of even light from all round.
#pragma once

#include <string>

namespace rakelight::test {

/// 32 x 16 pixels of red, green and blue of 1, in plain RGBE.
inline std::string even_hall_hdr() {
    std::string bytes = "#?RADIANCE\nFORMAT=32-bit_rle_rgbe\n\n-Y 16 +X 32\n";
    for (int i = 0; i < 16 * 32; ++i) bytes += "\x80\x80\x80\x81";
    return bytes;
}

}  // namespace rakelight::test
