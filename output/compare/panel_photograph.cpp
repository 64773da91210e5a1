#include "output/compare/panel_photograph.h"

#include <OpenImageIO/imagebuf.h>
#include <fmt/format.h>

#include "materials/colour/colorimetry.h"
#include "output/system/errors.h"
#include "scene/picture_file/open_picture.h"
#include "scene/picture_file/whole_picture.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

constexpr int kLeast_px = 32;
constexpr std::int64_t kMostPixels = 120'000'000;
constexpr float kFull = 0.995f, kEmpty = 0.004f;  // encoded: a step below the ends of 8 bits

[[noreturn]] void refuse(const std::filesystem::path& path, const std::string& why) {
    throw RequestError(fmt::format("{}: {}", path.string(), why));
}

OIIO::ImageBuf read_upright(const std::filesystem::path& path) {
    try {
        const auto in = open_picture(path, "a photograph");
        check_size(*in, kLeast_px, kMostPixels);
        if (in->spec().nchannels < 3) refuse(path, "found a picture in grey, expected one in colour");
        return whole_picture(*in, OIIO::TypeDesc::FLOAT);
    } catch (const std::runtime_error& e) {
        refuse(path, e.what());
    }
}

}  // namespace

PanelPhotograph read_panel_photograph(const std::filesystem::path& path) {
    const OIIO::ImageBuf upright = read_upright(path);
    PanelPhotograph p{upright.spec().width, upright.spec().height, {}, {}};
    p.spoilt = Plane(p.width, p.height);
    p.rgb.resize(p.spoilt.v.size());
    std::size_t i = 0;
    for (OIIO::ImageBuf::ConstIterator<float> at(upright); !at.done(); ++at, ++i) {
        const glm::vec3 encoded(at[0], at[1], at[2]);
        const LinearRgb rgb = decode({encoded.r, encoded.g, encoded.b});
        p.rgb[i] = {static_cast<float>(rgb.r), static_cast<float>(rgb.g), static_cast<float>(rgb.b)};
        const float most = std::max({encoded.r, encoded.g, encoded.b});
        p.spoilt.v[i] = most >= kFull || most <= kEmpty ? 1.f : 0.f;
    }
    return p;
}

}  // namespace rakelight
