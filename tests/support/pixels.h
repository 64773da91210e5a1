// A picture file as 8-bit pixels.
#pragma once

#include <OpenImageIO/imageio.h>

#include <array>
#include <cstdint>
#include <filesystem>
#include <stdexcept>
#include <vector>

namespace rakelight::test {

struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;  ///< row by row from the top, as it stands in the file

    explicit Pixels(const std::filesystem::path& path) {
        const auto in = OIIO::ImageInput::open(path.string());
        if (!in) throw std::runtime_error("cannot read " + path.string());
        width = in->spec().width;
        height = in->spec().height;
        rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
        if (!in->read_image(0, 0, 0, 3, OIIO::TypeDesc::UINT8, rgb.data()))
            throw std::runtime_error("cannot read " + path.string() + ": " + in->geterror());
    }
    std::array<std::uint8_t, 3> at(double x_px, double y_px) const {
        const auto i = 3 * (static_cast<std::size_t>(y_px) * static_cast<std::size_t>(width) +
                            static_cast<std::size_t>(x_px));
        return {rgb[i], rgb[i + 1], rgb[i + 2]};
    }
};

}  // namespace rakelight::test
