#include "scene/surround/read_surround.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <mutex>
#include <stdexcept>
#include <string>
#include <tuple>

#include "materials/colour/colorimetry.h"
#include "scene/picture_file/open_picture.h"
#include "scene/surround/file_light.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr int kLeastWidth_px = 16;
constexpr int kMostChannels = 64;

[[noreturn]] void refuse(std::string found, std::string_view expected) {
    throw std::runtime_error(fmt::format("found {}, expected {}", found, expected));
}

constexpr std::string_view kKinds = "an equirectangular picture: EXR, Radiance HDR, or JPEG, PNG, TIFF";

void check(const OIIO::ImageInput& in) {
    const OIIO::ImageSpec& spec = in.spec();
    if (spec.nchannels > kMostChannels)
        refuse(fmt::format("{} channels", spec.nchannels), fmt::format("at most {}", kMostChannels));
    check_size(in, 1, kMostSurroundPixels);
    if (spec.width != 2 * spec.height || spec.width < kLeastWidth_px)
        refuse(fmt::format("{} x {} pixels", spec.width, spec.height),
               fmt::format("twice as wide as high, all round and from pole to pole, at least {} wide",
                           kLeastWidth_px));
    if (spec.get_int_attribute("Orientation", 1) != 1)
        refuse("a picture that lies on its side or upside down", "its first row at the zenith");
}

// Places of red, green and blue among the channels; of a grey picture thrice the first.
std::array<int, 3> colour_channels(const OIIO::ImageSpec& spec) {
    const std::array<int, 3> named{spec.channelindex("R"), spec.channelindex("G"), spec.channelindex("B")};
    if (std::ranges::all_of(named, [](int c) { return c >= 0; })) return named;
    return spec.nchannels >= 3 ? std::array{0, 1, 2} : std::array{0, 0, 0};
}

std::vector<float> read_pixels(OIIO::ImageInput& in, const std::array<int, 3>& channels) {
    const OIIO::ImageSpec& spec = in.spec();
    const int first = *std::ranges::min_element(channels), last = *std::ranges::max_element(channels) + 1;
    std::vector<float> all(static_cast<std::size_t>(spec.width) * static_cast<std::size_t>(spec.height) *
                           static_cast<std::size_t>(last - first));
    if (!in.read_image(0, 0, first, last, OIIO::TypeDesc::FLOAT, all.data())) {
        (void)in.geterror();
        refuse("a damaged file or one that breaks off", "a whole picture");
    }
    return all;
}

// What a file's numbers become light by.
struct Encoding {
    bool srgb_curve = false;
    glm::dmat3 to_srgb{1};
};

Encoding encoding_of(const OIIO::ImageInput& in, const fs::path& path, SurroundPicture& picture) {
    Encoding encoding;
    const OIIO::ImageSpec& spec = in.spec();
    const bool whole = spec.format.is_floating_point() == false;
    picture.cut_off = whole;
    encoding.srgb_curve = whole;
    const std::string_view format = in.format_name();
    if (format == "hdr") {
        picture.cut_off = false;
        encoding.srgb_curve = false;
        std::string start(16384, '\0');
        std::ifstream file(path, std::ios::binary);
        file.read(start.data(), static_cast<std::streamsize>(start.size()));
        start.resize(static_cast<std::size_t>(file.gcount()));
        const RadianceHeader header = read_radiance_header(start);
        encoding.to_srgb = header.to_srgb;
        for (int i = 0; i < 3; ++i) encoding.to_srgb[i] *= header.factor[i];
    } else if (format == "openexr") {
        PrimaryPlaces places{};
        std::array<float, 8> stored{};
        if (spec.getattribute("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), stored.data())) {
            std::copy(stored.begin(), stored.end(), places.begin());
            encoding.to_srgb = to_srgb_primaries(places);
        }
        if (const float white = spec.get_float_attribute("whiteLuminance", 0); white > 0)
            picture.unit_cd_per_m2 = double(white);
    }
    return encoding;
}

glm::dvec3 light_of(const Encoding& encoding, glm::dvec3 stored) {
    if (encoding.srgb_curve) {
        const LinearRgb linear = decode({stored.x, stored.y, stored.z});
        stored = {linear.r, linear.g, linear.b};
    }
    return glm::max(encoding.to_srgb * stored, glm::dvec3(0));
}

// The picture with mean light, by solid angle, in pixels of a smaller one.
SurroundPicture shrunk(SurroundPicture p) {
    const int shrink = (p.width_px + kMostSurroundWidth_px - 1) / kMostSurroundWidth_px;
    if (shrink == 1) return p;
    SurroundPicture small;
    small.unit_cd_per_m2 = p.unit_cd_per_m2;
    small.cut_off = p.cut_off;
    small.height_px = p.height_px / shrink;
    small.width_px = 2 * small.height_px;
    const auto size = static_cast<std::size_t>(small.width_px) * static_cast<std::size_t>(small.height_px);
    small.rgb.resize(size);
    std::vector<float> sr(size);
    for (int y = 0; y < p.height_px; ++y) {
        const float one_sr = static_cast<float>(pixel_sr(p, y));
        const std::size_t row = static_cast<std::size_t>(y) * small.height_px / p.height_px * small.width_px;
        for (int x = 0; x < p.width_px; ++x) {
            const std::size_t to = row + static_cast<std::size_t>(x) * small.width_px / p.width_px;
            small.rgb[to] += one_sr * p.rgb[static_cast<std::size_t>(y) * p.width_px + x];
            sr[to] += one_sr;
        }
    }
    for (std::size_t i = 0; i < size; ++i) small.rgb[i] /= sr[i];
    return small;
}

}  // namespace

SurroundPicture read_surround_picture(const fs::path& path) {
    const auto in = open_picture(path, kKinds, {"openexr", "hdr", "png", "jpeg", "tiff"});
    check(*in);
    const OIIO::ImageSpec spec = in->spec();
    SurroundPicture picture;
    picture.width_px = spec.width;
    picture.height_px = spec.height;
    const Encoding encoding = encoding_of(*in, path, picture);
    const std::array<int, 3> channels = colour_channels(spec);
    const std::vector<float> stored = read_pixels(*in, channels);
    const int first = *std::ranges::min_element(channels);
    const auto stride = static_cast<std::size_t>(*std::ranges::max_element(channels) + 1 - first);
    const auto pixels = static_cast<std::size_t>(spec.width) * static_cast<std::size_t>(spec.height);
    picture.rgb.reserve(pixels);
    double all = 0;
    for (std::size_t i = 0; i < pixels; ++i) {
        glm::dvec3 rgb;
        for (int c = 0; c < 3; ++c)
            rgb[c] = double(
                stored[i * stride + static_cast<std::size_t>(channels[static_cast<std::size_t>(c)] - first)]);
        const glm::dvec3 light = light_of(encoding, rgb);
        if (!std::isfinite(light.x + light.y + light.z) || light.x + light.y + light.z > 1e30)
            refuse(fmt::format("a pixel without a number, in column {} and row {}", i % spec.width + 1,
                               i / spec.width + 1),
                   "light in every pixel");
        picture.rgb.emplace_back(light);
        all += light.x + light.y + light.z;
    }
    if (!(all > 0)) refuse("a black picture", "some light in it");
    return shrunk(std::move(picture));
}

std::shared_ptr<const AllRound> read_all_round_picture(const fs::path& path) {
    using Key = std::tuple<std::string, fs::file_time_type, std::uintmax_t>;
    static std::mutex mutex;
    static std::map<Key, std::weak_ptr<const AllRound>> known;
    std::error_code error;
    const Key key{path.string(), fs::last_write_time(path, error), fs::file_size(path, error)};
    const std::lock_guard lock(mutex);
    if (auto kept = known[key].lock()) return kept;
    auto fresh = std::make_shared<const AllRound>(read_surround_picture(path));
    known[key] = fresh;
    return fresh;
}

}  // namespace rakelight
