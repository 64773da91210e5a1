#include "output/samples/photograph.h"

#include <OpenImageIO/imagebuf.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "scene/picture_file/open_picture.h"
#include "scene/picture_file/whole_picture.h"

namespace rakelight {

namespace {

constexpr int kLeast_px = 16;
constexpr std::int64_t kMostPixels = 120'000'000;

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// Of a raw file the sensor's own colours: no matrix, no curve, no brightening.
OIIO::ImageSpec how_to_read() {
    OIIO::ImageSpec how;
    how.attribute("raw:ColorSpace", "raw");
    how.attribute("raw:auto_bright", 0);
    how.attribute("raw:use_camera_wb", 1);
    how.attribute("raw:HighlightMode", 0);
    return how;
}

}  // namespace

struct Photograph::Inside {
    OIIO::ImageBuf picture;
    bool linear = false;
    float ceiling = 1;
};

Photograph::Photograph(const std::filesystem::path& path) : in_(std::make_unique<Inside>()) {
    const auto in = open_picture(path, "a photograph", {}, how_to_read());
    check_size(*in, kLeast_px, kMostPixels);
    const OIIO::ImageSpec& spec = in->spec();
    if (spec.nchannels < 3) throw std::runtime_error("found a grey picture, expected one in colour");
    const std::string_view format = in->format_name();
    const std::string space(spec.get_string_attribute("oiio:ColorSpace"));
    in_->linear =
        one_of(format, {"raw", "openexr", "hdr"}) || one_of(space, {"Linear", "linear", "scene_linear"});
    // Within the last step of 8 bits; demosaicing leaves raw whites a little below the top.
    in_->ceiling = format == "raw" ? 0.98f : in_->linear ? 1.0f : 254.5f / 255;
    in_->picture = whole_picture(*in, OIIO::TypeUnknown);
}

Photograph::~Photograph() = default;
Photograph::Photograph(Photograph&&) noexcept = default;

glm::ivec2 Photograph::size_px() const {
    return {in_->picture.spec().width, in_->picture.spec().height};
}

std::array<float, 3> Photograph::pixel(const glm::ivec2& at) const {
    std::array<float, 3> rgb{};
    in_->picture.getpixel(in_->picture.xbegin() + at.x, in_->picture.ybegin() + at.y, rgb.data(), 3);
    return rgb;
}

bool Photograph::linear() const {
    return in_->linear;
}

std::optional<double> Photograph::exposure() const {
    const OIIO::ImageSpec& spec = in_->picture.spec();
    const double seconds = double(spec.get_float_attribute("ExposureTime", 0));
    if (!(seconds > 0)) return {};
    const int iso = std::max(spec.get_int_attribute("Exif:PhotographicSensitivity", 0),
                             spec.get_int_attribute("Exif:ISOSpeedRatings", 0));
    const double f_number = double(spec.get_float_attribute("FNumber", 1));
    return seconds * (iso > 0 ? iso : 100) / std::max(f_number * f_number, 1e-6);
}

float Photograph::ceiling() const {
    return in_->ceiling;
}

}  // namespace rakelight
