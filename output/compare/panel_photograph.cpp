#include "output/compare/panel_photograph.h"

#include <OpenImageIO/imagebuf.h>
#include <OpenImageIO/imagebufalgo.h>
#include <fmt/format.h>

#include "materials/colour/colorimetry.h"
#include "output/system/errors.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

constexpr int kLeast_px = 32;
constexpr long long kMostPixels = 120'000'000;
constexpr float kFull = 0.995f, kEmpty = 0.004f;  // encoded: a step below the ends of 8 bits

[[noreturn]] void refuse(const std::filesystem::path& path, const std::string& why) {
    throw RequestError(fmt::format("{}: {}", path.string(), why));
}

}  // namespace

PanelPhotograph read_panel_photograph(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error))
        refuse(path, "found no such file, expected a photograph");
    OIIO::ImageBuf raw(path.string());
    if (!raw.init_spec(path.string(), 0, 0)) {
        (void)raw.geterror();
        refuse(path, "found a file that is no picture or a broken one, expected a photograph");
    }
    const OIIO::ImageSpec& about = raw.spec();
    if (about.width < kLeast_px || about.height < kLeast_px ||
        static_cast<long long>(about.width) * about.height > kMostPixels)
        refuse(path, fmt::format("found {} x {} pixels, expected at least {} x {} and at most {} million",
                                 about.width, about.height, kLeast_px, kLeast_px, kMostPixels / 1'000'000));
    if (about.nchannels < 3) refuse(path, "found a picture in grey, expected one in colour");
    if (!raw.read(0, 0, true, OIIO::TypeDesc::FLOAT)) {
        (void)raw.geterror();
        refuse(path, "found a picture that breaks off, expected a whole one");
    }
    const OIIO::ImageBuf upright = OIIO::ImageBufAlgo::reorient(raw);
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
