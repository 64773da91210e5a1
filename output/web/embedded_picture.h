// A picture as text inside a page: the file itself where it is small enough, else fewer pixels of it.
#pragma once

#include <filesystem>
#include <string>

#include "output/print/area_mean.h"
#include "output/print/develop.h"

namespace rakelight {

struct PictureLimits {
    int most_side_px = 2400;             ///< larger pictures are shrunk, in linear light
    std::size_t most_bytes = 1'500'000;  ///< files up to this size go in as they are, if not shrunk
};

/// A picture that can stand in an `img`.
struct EmbeddedPicture {
    std::string source;  ///< data: URL
    int width_px = 0;
    int height_px = 0;
    int file_width_px = 0;  ///< of the file it is of
    int file_height_px = 0;
};

/// A PNG or JPEG file. \throws RequestError when it cannot be read.
EmbeddedPicture embedded_picture(const std::filesystem::path& file, const PictureLimits& limits = {});

/// Width and height of a picture file. \throws RequestError when it cannot be read.
PixelSize size_of_picture(const std::filesystem::path& file);

/// A print, as JPEG of high quality.
EmbeddedPicture embedded_print(const Print& print);

/// An SVG file. It cannot run scripts inside an `img`.
EmbeddedPicture embedded_drawing(const std::filesystem::path& file);

}  // namespace rakelight
