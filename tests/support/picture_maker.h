// Small pictures that tests make themselves, in a folder that goes with them.
#pragma once

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "tests/support/test_folder.h"

namespace rakelight {

class PictureMaker {
  public:
    const std::filesystem::path& folder() const { return folder_.path(); }

    using Pixel = std::vector<std::uint8_t>;

    /// `at(x, y)`, y down: the channels of a pixel as they stand in the file.
    std::filesystem::path write(const std::string& name, int width, int height, int channels,
                                const std::function<Pixel(int, int)>& at) const {
        const auto path = folder_ / name;
        OIIO::ImageSpec spec(width, height, channels, OIIO::TypeDesc::UINT8);
        if (channels == 2 || channels == 4) spec.alpha_channel = channels - 1;
        spec.attribute("oiio:UnassociatedAlpha", 1);
        std::vector<std::uint8_t> bytes;
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x)
                for (const std::uint8_t v : at(x, y)) bytes.push_back(v);
        const auto out = OIIO::ImageOutput::create(path.string());
        if (!out || !out->open(path.string(), spec) ||
            !out->write_image(OIIO::TypeDesc::UINT8, bytes.data()) || !out->close())
            ADD_FAILURE() << "cannot write " << path;
        return path;
    }

  private:
    test::Folder folder_;
};

}  // namespace rakelight
