#include "output/compare/panel_photograph.h"

#include <OpenImageIO/imagebuf.h>
#include <fmt/format.h>

#include <stdexcept>

#include "materials/colour/colorimetry.h"
#include "output/system/errors.h"
#include "scene/picture_file/open_picture.h"
#include "scene/picture_file/whole_picture.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

constexpr int kLeast_px = 32;
constexpr std::int64_t kMostPixels = 80'000'000;
constexpr float kFull = 0.995f, kEmpty = 0.004f;  // encoded: a step below the ends of 8 bits

[[noreturn]] void refuse(const std::filesystem::path& path, const std::string& why) {
    throw RequestError(fmt::format("{}: {}", path.string(), why));
}

OIIO::ImageBuf read_upright(const std::filesystem::path& path) {
    try {
        const auto in = open_picture(path, "a photograph");
        check_size(*in, kLeast_px, kMostPixels);
        if (in->spec().nchannels < 3)
            throw std::runtime_error("found a picture in grey, expected one in colour");
        return whole_picture(*in, OIIO::TypeUnknown);
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
    const OIIO::ROI all = upright.roi();
    std::vector<glm::vec3> row(static_cast<std::size_t>(p.width));
    for (std::size_t i = 0; i < p.rgb.size(); ++i) {
        const int x = static_cast<int>(i % row.size()), y = all.ybegin + static_cast<int>(i / row.size());
        if (x == 0)
            upright.get_pixels({all.xbegin, all.xend, y, y + 1, 0, 1, 0, 3}, OIIO::TypeDesc::FLOAT,
                               row.data());
        const glm::vec3& encoded = row[static_cast<std::size_t>(x)];
        const LinearRgb rgb = decode({encoded.r, encoded.g, encoded.b});
        p.rgb[i] = {static_cast<float>(rgb.r), static_cast<float>(rgb.g), static_cast<float>(rgb.b)};
        const float most = std::max({encoded.r, encoded.g, encoded.b});
        p.spoilt.v[i] = most >= kFull || most <= kEmpty ? 1.f : 0.f;
    }
    return p;
}

}  // namespace rakelight
