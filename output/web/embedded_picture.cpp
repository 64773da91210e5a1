#include "output/web/embedded_picture.h"

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>
#include <OpenImageIO/strutil.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <memory>
#include <stdexcept>

#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "scene/picture_file/open_picture.h"

namespace rakelight {

namespace {

constexpr int kQuality = 90;
constexpr std::int64_t kMostPixels = 1'000'000'000;

std::string jpeg_source(const std::vector<float>& rgb, int width, int height) {
    std::vector<unsigned char> bytes;
    OIIO::Filesystem::IOVecOutput memory(bytes);
    const auto out = OIIO::ImageOutput::create("jpeg");
    if (!out) throw OutputError("this OpenImageIO cannot write JPEG");
    out->set_ioproxy(&memory);
    OIIO::ImageSpec spec(width, height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("CompressionQuality", kQuality);
    spec.attribute("jpeg:subsampling", "4:4:4");
    std::vector<std::uint8_t> samples(rgb.size());
    for (std::size_t i = 0; i < rgb.size(); ++i)
        samples[i] = static_cast<std::uint8_t>(std::floor(std::clamp<double>(rgb[i], 0, 1) * 255 + 0.5));
    if (!out->open("page.jpg", spec) || !out->write_image(OIIO::TypeDesc::UINT8, samples.data()) ||
        !out->close())
        throw OutputError(fmt::format("cannot make a JPEG: {}", out->geterror()));
    return "data:image/jpeg;base64," +
           OIIO::Strutil::base64_encode({reinterpret_cast<const char*>(bytes.data()), bytes.size()});
}

// Encoded sRGB of a file on white paper, 0..1.
std::vector<float> read_rgb(OIIO::ImageInput& in, const std::filesystem::path& file) {
    const OIIO::ImageSpec& spec = in.spec();
    const auto channels = static_cast<std::size_t>(spec.nchannels);
    std::vector<float> all(spec.image_pixels() * channels);
    if (!in.read_image(0, 0, 0, spec.nchannels, OIIO::TypeDesc::FLOAT, all.data()))
        throw RequestError(fmt::format("cannot read {}: {}", file.string(), in.geterror()));
    std::vector<float> rgb(3 * spec.image_pixels());
    const int alpha = spec.alpha_channel;
    for (std::size_t i = 0; i < spec.image_pixels(); ++i)
        for (std::size_t c = 0; c < 3; ++c) {
            // OpenImageIO hands out colour times opacity.
            const float paper = alpha < 0 ? 0 : 1 - all[i * channels + static_cast<std::size_t>(alpha)];
            rgb[3 * i + c] = all[i * channels + (channels < 3 ? 0 : c)] + paper;
        }
    return rgb;
}

std::vector<float> shrunk(const std::vector<float>& rgb, PixelSize old, PixelSize size) {
    std::vector<glm::vec3> light(rgb.size() / 3);
    for (std::size_t i = 0; i < light.size(); ++i) {
        const LinearRgb l = decode({rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]});
        light[i] = {l.r, l.g, l.b};
    }
    std::vector<float> small;
    for (const glm::vec3& l : area_mean(light, old, size)) {
        const EncodedSrgb e = encode({l.r, l.g, l.b});
        for (const double v : {e.r, e.g, e.b}) small.push_back(static_cast<float>(v));
    }
    return small;
}

std::unique_ptr<OIIO::ImageInput> opened(const std::filesystem::path& file) {
    try {
        auto in = open_picture(file, "a picture");
        check_size(*in, 1, kMostPixels);
        return in;
    } catch (const std::runtime_error& e) {
        throw RequestError(fmt::format("cannot read {}: {}", file.string(), e.what()));
    }
}

}  // namespace

PixelSize size_of_picture(const std::filesystem::path& file) {
    const auto in = opened(file);
    return {in->spec().width, in->spec().height};
}

EmbeddedPicture embedded_picture(const std::filesystem::path& file, const PictureLimits& limits) {
    const auto in = opened(file);
    const PixelSize old{in->spec().width, in->spec().height};
    const PixelSize size = fit_within(old, limits.most_side_px);
    EmbeddedPicture picture{"", size.width, size.height, old.width, old.height};
    if (size == old && std::filesystem::file_size(file) <= limits.most_bytes)
        picture.source = fmt::format("data:image/{};base64,{}", in->format_name(),
                                     OIIO::Strutil::base64_encode(read_file(file)));
    else
        picture.source = jpeg_source(shrunk(read_rgb(*in, file), old, size), size.width, size.height);
    return picture;
}

EmbeddedPicture embedded_print(const Print& print) {
    return {jpeg_source(print.rgb, print.width, print.height), print.width, print.height, print.width,
            print.height};
}

EmbeddedPicture embedded_drawing(const std::filesystem::path& file) {
    return {"data:image/svg+xml;base64," + OIIO::Strutil::base64_encode(read_file(file)), 0, 0, 0, 0};
}

}  // namespace rakelight
