#include "output/encode_clip/frame.h"

#include <array>
#include <cmath>
#include <fstream>
#include <stdexcept>

namespace rakelight {

namespace {

// IEC 61966-2-1.
double decoded(double c) {
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}
double encoded(double c) {
    return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055;
}

}  // namespace

Frame read_frame(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::string magic;
    int most = 0;
    Frame frame;
    in >> magic >> frame.width >> frame.height >> most;
    if (!in || magic != "P6" || most != 255 || frame.width < 1 || frame.height < 1 || frame.width > 16384 ||
        frame.height > 16384)
        throw std::runtime_error("cannot read the frame " + path);
    in.get();
    frame.rgb.resize(static_cast<std::size_t>(frame.width) * static_cast<std::size_t>(frame.height) * 3);
    in.read(reinterpret_cast<char*>(frame.rgb.data()), static_cast<std::streamsize>(frame.rgb.size()));
    if (!in) throw std::runtime_error("the frame " + path + " is cut off");
    return frame;
}

Frame shrunk(const Frame& frame, int by) {
    if (by <= 1) return frame;
    static const auto kLinear = [] {
        std::array<double, 256> table{};
        for (std::size_t i = 0; i < table.size(); ++i) table[i] = decoded(static_cast<double>(i) / 255);
        return table;
    }();
    Frame small{frame.width / by, frame.height / by, {}};
    small.rgb.reserve(static_cast<std::size_t>(small.width) * static_cast<std::size_t>(small.height) * 3);
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x)
            for (int c = 0; c < 3; ++c) {
                double sum = 0;
                for (int k = 0; k < by * by; ++k) {
                    const int at = ((y * by + k / by) * frame.width + x * by + k % by) * 3 + c;
                    sum += kLinear[frame.rgb[static_cast<std::size_t>(at)]];
                }
                small.rgb.push_back(static_cast<std::uint8_t>(std::lround(255 * encoded(sum / (by * by)))));
            }
    return small;
}

}  // namespace rakelight
