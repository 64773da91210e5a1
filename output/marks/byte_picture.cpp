#include "output/marks/byte_picture.h"

#include <OpenImageIO/imagebuf.h>
#include <fmt/format.h>

#include <stdexcept>

#include "scene/picture_file/open_picture.h"
#include "scene/picture_file/whole_picture.h"

namespace rakelight {
namespace {

constexpr int kLeast_px = 32;
constexpr std::int64_t kMostPixels = 120'000'000;

}  // namespace

BytePicture read_byte_picture(const std::filesystem::path& path) {
    const auto in = open_picture(path, "a photograph");
    check_size(*in, kLeast_px, kMostPixels);
    const OIIO::ImageBuf upright = whole_picture(*in, OIIO::TypeDesc::UINT8);
    BytePicture picture{{upright.spec().width, upright.spec().height}, {}};
    const auto pixels =
        static_cast<std::size_t>(picture.size_px.x) * static_cast<std::size_t>(picture.size_px.y);
    picture.rgb.resize(3 * pixels);
    const auto channels = static_cast<std::size_t>(upright.nchannels());
    std::vector<std::uint8_t> all(channels * pixels);
    if (!upright.get_pixels(OIIO::ROI::All(), OIIO::TypeDesc::UINT8, all.data()))
        throw std::runtime_error("found a picture that breaks off, expected a whole one");
    for (std::size_t i = 0; i < pixels; ++i)
        for (std::size_t c = 0; c < 3; ++c)
            picture.rgb[3 * i + c] = all[channels * i + (channels < 3 ? 0 : c)];
    return picture;
}

std::string ppm_of(const BytePicture& picture) {
    std::string bytes = fmt::format("P6 {} {} 255\n", picture.size_px.x, picture.size_px.y);
    bytes.append(reinterpret_cast<const char*>(picture.rgb.data()), picture.rgb.size());
    return bytes;
}

}  // namespace rakelight
