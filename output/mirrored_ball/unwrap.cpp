#include "output/mirrored_ball/unwrap.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/colour/colorimetry.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

constexpr int kFiner = 3;       // places looked at across a pixel
constexpr float kFade = 0.15f;  // below the ceiling, where a photograph begins to count less

// The part of a photograph that the ball lies in, as light.
struct Window {
    int left = 0, top = 0, columns = 0, rows = 0;
    double exposure = 1;
    std::vector<glm::vec3> light;  ///< linear, as exposed
    std::vector<float> headroom;   ///< 0 at the ceiling, 1 well below it
};

Window window_of(const BallShot& shot, const BallView& view) {
    const glm::ivec2 size = shot.photograph.size_px();
    Window w;
    w.exposure = shot.exposure;
    w.left = static_cast<int>(std::floor(view.middle_px.x - view.radius_px)) - 1;
    w.top = static_cast<int>(std::floor(view.middle_px.y - view.radius_px)) - 1;
    w.columns = static_cast<int>(std::ceil(2 * view.radius_px)) + 3;
    w.rows = w.columns;
    const float ceiling = shot.photograph.ceiling();
    for (int y = 0; y < w.rows; ++y)
        for (int x = 0; x < w.columns; ++x) {
            const std::array<float, 3> stored = shot.photograph.pixel(
                {std::clamp(w.left + x, 0, size.x - 1), std::clamp(w.top + y, 0, size.y - 1)});
            glm::dvec3 light(stored[0], stored[1], stored[2]);
            if (!shot.photograph.linear()) {
                const LinearRgb linear = decode({light.x, light.y, light.z});
                light = {linear.r, linear.g, linear.b};
            }
            w.light.emplace_back(glm::max(light, glm::dvec3(0)));
            const float most = std::max({stored[0], stored[1], stored[2]});
            w.headroom.push_back(std::clamp((ceiling - most) / (kFade * ceiling), 0.0f, 1.0f));
        }
    return w;
}

struct Seen {
    glm::dvec3 light{};
    double headroom = 1;
};

// Between the four pixels about a place.
Seen seen_at(const Window& w, const glm::dvec2& at_px) {
    const glm::dvec2 p = glm::clamp(at_px - glm::dvec2(w.left, w.top) - 0.5, glm::dvec2(0),
                                    glm::dvec2(w.columns - 1.001, w.rows - 1.001));
    const glm::ivec2 first(p);
    const glm::dvec2 f = p - glm::dvec2(first);
    Seen seen;
    for (int j = 0; j < 2; ++j)
        for (int i = 0; i < 2; ++i) {
            const double share = (i ? f.x : 1 - f.x) * (j ? f.y : 1 - f.y);
            const auto at = static_cast<std::size_t>((first.y + j) * w.columns + first.x + i);
            seen.light += share * glm::dvec3(w.light[at]);
            if (share > 0) seen.headroom = std::min(seen.headroom, double(w.headroom[at]));
        }
    return seen;
}

struct Merged {
    glm::dvec3 light{};
    bool cut_off = false;
};

Merged merged_at(const std::vector<Window>& windows, const glm::dvec2& at_px) {
    glm::dvec3 sum(0), darkest(0);
    double weights = 0, least = 1e300;
    for (const Window& w : windows) {
        const Seen seen = seen_at(w, at_px);
        const double weight = seen.headroom * w.exposure;
        sum += weight * seen.light / w.exposure;
        weights += weight;
        if (w.exposure < least) least = w.exposure, darkest = seen.light / w.exposure;
    }
    if (weights > 0) return {sum / weights, false};
    return {darkest, true};
}

void check(const std::vector<BallShot>& shots, const BallView& view) {
    const glm::ivec2 size = shots.at(0).photograph.size_px();
    for (const BallShot& shot : shots)
        if (shot.photograph.size_px() != size)
            throw std::runtime_error(fmt::format(
                "found photographs of {} x {} and {} x {} pixels, expected all taken from one place with one "
                "camera",
                size.x, size.y, shot.photograph.size_px().x, shot.photograph.size_px().y));
    const glm::dvec2 low = view.middle_px - view.radius_px, high = view.middle_px + view.radius_px;
    if (low.x < 0 || low.y < 0 || high.x > size.x || high.y > size.y)
        throw std::runtime_error(fmt::format(
            "found a ball from {:.0f}, {:.0f} to {:.0f}, {:.0f}, expected one within {} x {} pixels", low.x,
            low.y, high.x, high.y, size.x, size.y));
}

}  // namespace

Unwrapped unwrap(const std::vector<BallShot>& shots, const BallView& view, int width_px) {
    check(shots, view);
    std::vector<Window> windows;
    for (const BallShot& shot : shots) windows.push_back(window_of(shot, view));
    Unwrapped result;
    SurroundPicture& p = result.picture;
    p.width_px = width_px;
    p.height_px = width_px / 2;
    const auto width = static_cast<std::size_t>(p.width_px);
    p.rgb.resize(width * static_cast<std::size_t>(p.height_px));
    std::vector<double> cut(static_cast<std::size_t>(p.height_px));
    tbb::parallel_for(0, p.height_px, [&](int y) {
        for (int x = 0; x < p.width_px; ++x) {
            glm::dvec3 sum(0);
            for (int k = 0; k < kFiner * kFiner; ++k) {
                const double sine = sine_of_altitude(p, y + (k / kFiner + 0.5) / kFiner);
                const glm::vec3 to = direction_of(p, sine, x + (k % kFiner + 0.5) / kFiner);
                const Merged merged = merged_at(windows, mirrored_at_px(view, glm::dvec3(to)));
                sum += merged.light;
                if (merged.cut_off) cut[static_cast<std::size_t>(y)] += 1.0 / (kFiner * kFiner);
            }
            p.rgb[static_cast<std::size_t>(y) * width + static_cast<std::size_t>(x)] =
                glm::vec3(sum / double(kFiner * kFiner));
        }
    });
    double flux = 0, most = 0;
    for (int y = 0; y < p.height_px; ++y) {
        const double sr = pixel_sr(p, y);
        result.cut_off_share += cut[static_cast<std::size_t>(y)] * sr / (4 * std::numbers::pi);
        for (std::size_t x = 0; x < width; ++x) {
            const double l = luminance_of(p.rgb[static_cast<std::size_t>(y) * width + x]);
            flux += l * sr;
            most = std::max(most, l);
        }
    }
    const double mean = flux / (4 * std::numbers::pi);
    if (!(mean > 0)) throw std::runtime_error("found a black ball, expected one that mirrors the room");
    for (glm::vec3& rgb : p.rgb) rgb /= static_cast<float>(mean);
    result.most_over_mean = most / mean;
    return result;
}

void write_surround_exr(const std::filesystem::path& path, const SurroundPicture& picture,
                        const std::string& software) {
    SafeFile file(path);
    const std::string name = file.hidden().string();
    const auto out = OIIO::ImageOutput::create("openexr");
    if (!out) throw OutputError("this OpenImageIO cannot write OpenEXR");
    OIIO::ImageSpec spec(picture.width_px, picture.height_px, 3, OIIO::TypeDesc::FLOAT);
    spec.attribute("compression", "zip");
    spec.attribute("DateTime", "");  // or OpenImageIO would write the time of day
    spec.attribute("Software", software);
    spec.attribute("ImageDescription", "light from all round, equirectangular, relative");
    const float srgb[8] = {0.64f, 0.33f, 0.30f, 0.60f, 0.15f, 0.06f, 0.3127f, 0.3290f};
    spec.attribute("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), srgb);
    bool good = out->open(name, spec);
    good = good && out->write_image(OIIO::TypeDesc::FLOAT, picture.rgb.data());
    good = out->close() && good;
    const std::string why = out->geterror();
    if (!good)
        throw OutputError(
            fmt::format("cannot write {}: {}", path.string(), why.empty() ? "the disk may be full" : why));
    file.commit();
}

}  // namespace rakelight
