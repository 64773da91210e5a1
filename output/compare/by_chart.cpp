#include "output/compare/by_chart.h"

#include <fmt/format.h>

#include <algorithm>

#include "materials/colour/colour_temperature.h"
#include "materials/colour/illuminants.h"
#include "materials/photograph/camera_colours.h"
#include "output/samples/chart_checks.h"
#include "output/samples/find_chart.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

constexpr float kEmpty = 0.004f;  // a step above the lower end of 8 bits
constexpr const char* kCornersAsWords =
    "expected --chart X,Y X,Y X,Y X,Y, the outer corners of dark skin, bluish green, black and white";

Photograph opened(const std::filesystem::path& path) {
    try {
        return Photograph(path);
    } catch (const std::runtime_error& e) {
        throw RequestError(fmt::format("{}: {}", path.string(), e.what()));
    }
}

ChartCorners corners_in(const Photograph& picture, const std::filesystem::path& path,
                        const std::optional<ChartCorners>& told) {
    if (told) {
        if (const auto wrong = wrong_corners(picture, *told))
            throw RequestError(fmt::format("--chart: {}", *wrong));
        return *told;
    }
    const FoundChart found = find_chart(picture, Tone::by_format, kCornersAsWords);
    if (!found.corners) throw RequestError(fmt::format("{}: {}", path.string(), found.why_not));
    return *found.corners;
}

/// A pixel's channels with the tone curve undone. The light stays as it falls: it is the panel's.
CameraRgb linear_of(const std::array<float, 3>& rgb, bool linear, const ChartFit& fit) {
    CameraRgb r{};
    for (std::size_t c = 0; c < 3; ++c) {
        const auto v = static_cast<double>(rgb[c]);
        r[c] = fit.tone[c].light(linear ? v : decode(EncodedSrgb{v, 0, 0}).r);
    }
    return r;
}

PanelPhotograph developed(const Photograph& picture, bool linear, const ChartFit& fit,
                          const CameraColours& colours, const Xyz& white) {
    const Xyz d65 = linear_rgb_to_xyz({1, 1, 1});
    const glm::ivec2 size = picture.size_px();
    PanelPhotograph p{size.x, size.y, {}, Plane(size.x, size.y)};
    p.rgb.reserve(p.spoilt.v.size());
    for (int y = 0; y < size.y; ++y)
        for (int x = 0; x < size.x; ++x) {
            const auto rgb = picture.pixel({x, y});
            const Xyz seen = colours.colour(linear_of(rgb, linear, fit));
            const LinearRgb shown = xyz_to_linear_rgb(adapt(seen, white, d65));
            p.rgb.emplace_back(static_cast<float>(shown.r), static_cast<float>(shown.g),
                               static_cast<float>(shown.b));
            const float most = std::max({rgb[0], rgb[1], rgb[2]});
            p.spoilt.v[p.spoilt.at(x, y)] =
                most >= picture.ceiling() || (!linear && most <= kEmpty) ? 1.f : 0.f;
        }
    return p;
}

}  // namespace

Spectrum light_like(const Xyz& white) {
    const double k = std::clamp(cct_k(white), 1000.0, 25000.0);
    return k < 5000 ? planckian(k) : daylight(k);
}

ByChart read_by_chart(const std::filesystem::path& path, const std::optional<ChartCorners>& corners,
                      const Spectrum& light) {
    const Photograph picture = opened(path);
    ByChart by{{}, corners_in(picture, path, corners), !corners, {}};
    const Taking how = taking(picture, Tone::by_format, by.corners);
    const ChartReadings readings{read_patches(how, by.corners), {}, how.linear};
    try {
        const ChartFit fit = fit_chart(readings);
        by.doubts = chart_doubts(readings, fit);
        by.photo =
            developed(picture, how.linear, fit, fit_colours(readings, fit, light), spectrum_to_xyz(light));
    } catch (const ChartRefused& e) {
        throw RequestError(fmt::format("{}: {}", path.string(), e.what()));
    }
    return by;
}

}  // namespace rakelight
