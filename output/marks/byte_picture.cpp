#include "output/marks/byte_picture.h"

#include <OpenImageIO/imagebuf.h>
#include <OpenImageIO/imagebufalgo.h>
#include <fmt/format.h>

#include <stdexcept>

namespace rakelight {
namespace {

constexpr int kLeast_px = 32;
constexpr std::int64_t kMostPixels = 120'000'000;

[[noreturn]] void refuse(OIIO::ImageBuf& picture, const char* why) {
    (void)picture.geterror();
    throw std::runtime_error(why);
}

}  // namespace

BytePicture read_byte_picture(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error))
        throw std::runtime_error("found no such file, expected a photograph");
    OIIO::ImageBuf raw(path.string());
    if (!raw.init_spec(path.string(), 0, 0))
        refuse(raw, "found a file that is no picture or a broken one, expected a photograph");
    const OIIO::ImageSpec& about = raw.spec();
    if (about.width < kLeast_px || about.height < kLeast_px ||
        std::int64_t{about.width} * about.height > kMostPixels)
        throw std::runtime_error(
            fmt::format("found {} x {} pixels, expected at least {} x {} and at most {} million", about.width,
                        about.height, kLeast_px, kLeast_px, kMostPixels / 1'000'000));
    if (!raw.read(0, 0, true, OIIO::TypeDesc::UINT8))
        refuse(raw, "found a picture that breaks off, expected a whole one");
    const OIIO::ImageBuf upright = OIIO::ImageBufAlgo::reorient(raw);
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
