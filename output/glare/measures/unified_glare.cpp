#include "output/glare/measures/unified_glare.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "output/glare/measures/guth.h"
#include "renderer/light_meter.h"
#include "renderer/light_sample.h"
#include "renderer/sampler.h"

namespace rakelight {

namespace {

constexpr std::uint32_t kPoints = 4096;  // of each lamp
constexpr double kFarthestAside = 3;     // T / R of CIE 117's table 4.1

double weight(const GlareSource& s) {
    return s.cd_per_m2 * s.cd_per_m2 * s.solid_angle_sr / (s.position * s.position);
}

// What the eye sees of an emitter, or of several that are one window.
struct SeenLamp {
    double solid_angle_sr = 0;
    double flux = 0;  // luminance integrated over it
    glm::dvec3 toward{};
    double direct_lux = 0;
    bool window = false;
    std::uint32_t group = 0;

    double cd_per_m2() const { return solid_angle_sr > 0 ? flux / solid_angle_sr : 0; }
};

void look_at(SeenLamp& seen, const Emitter& lamp, const Bvh& bvh, const Gaze& gaze) {
    const glm::vec3 eye(gaze.eye_mm);
    const double luminous = static_cast<double>(integrate(lamp.weights, SampledSpectrum(1.0f))[1]);
    for (std::uint32_t i = 0; i < kPoints; ++i) {
        const LiSample one = sample_li(lamp, eye, Sampler(1, i).next());
        if (!(one.pdf > 0) || !(one.cd_per_m2 > 0) || glm::dot(glm::dvec3(one.direction), gaze.sight) <= 0 ||
            bvh.occluded({eye, one.distance_mm * 0.9999f, one.direction}))
            continue;
        const double part_sr = 1 / (double(one.pdf) * kPoints);
        const double part = part_sr * double(one.cd_per_m2) * luminous;
        seen.solid_angle_sr += part_sr;
        seen.flux += part;
        seen.toward += part * glm::dvec3(one.direction);
    }
}

std::vector<SeenLamp> seen_lamps(const Bvh& bvh, std::span<const Emitter> lamps, const Gaze& gaze,
                                 std::span<const std::uint32_t> windows, std::span<const double> direct_lux) {
    std::vector<SeenLamp> seen;
    for (std::size_t i = 0; i < lamps.size(); ++i) {
        const bool window = std::ranges::find(windows, lamps[i].group) != windows.end();
        const bool same =
            window && !seen.empty() && seen.back().window && seen.back().group == lamps[i].group;
        if (!same) seen.push_back({.window = window, .group = lamps[i].group});
        look_at(seen.back(), lamps[i], bvh, gaze);
        seen.back().direct_lux += direct_lux[i];
    }
    return seen;
}

GlareSource source_of(const SeenLamp& seen, const Gaze& gaze) {
    GlareSource source;
    source.direction = glm::normalize(seen.toward);
    source.cd_per_m2 = seen.cd_per_m2();
    source.solid_angle_sr = seen.solid_angle_sr;
    source.position = position_index(source.direction, gaze.sight, gaze.up);
    source.group = seen.group;
    return source;
}

bool too_far_aside(const GlareSource& source, const Gaze& gaze) {
    const glm::dvec3 right = glm::cross(gaze.sight, gaze.up);
    const double length = glm::length(right);
    return length > 1e-9 && std::abs(glm::dot(source.direction, right)) / length >
                                kFarthestAside * glm::dot(source.direction, gaze.sight);
}

}  // namespace

std::optional<double> unified_glare_rating(std::span<const GlareSource> sources,
                                           double background_cd_per_m2) {
    double sum = 0;
    for (const GlareSource& s : sources) sum += weight(s);
    if (!(sum > 0) || !(background_cd_per_m2 > 0)) return std::nullopt;
    return 8 * std::log10(0.25 / background_cd_per_m2 * sum);
}

GlareView glare_in_view(const World& world, const Bvh& bvh, std::span<const Emitter> lamps, const Gaze& gaze,
                        std::span<const std::uint32_t> windows, double times_mean) {
    const LightApart light = light_apart(world, bvh, lamps, glm::vec3(gaze.eye_mm), glm::vec3(gaze.sight));
    const std::vector<SeenLamp> seen = seen_lamps(bvh, lamps, gaze, windows, light.direct_lux);
    double lux = light.indirect_lux, background_lux = light.indirect_lux;
    for (const SeenLamp& lamp : seen) lux += lamp.direct_lux;
    const double bright_window = times_mean * lux / std::numbers::pi;
    GlareView view;
    for (const SeenLamp& lamp : seen) {
        if (lamp.window && lamp.cd_per_m2() <= bright_window) {
            background_lux += lamp.direct_lux;
            continue;
        }
        if (!(lamp.flux > 0)) continue;
        const GlareSource source = source_of(lamp, gaze);
        if (!too_far_aside(source, gaze)) view.sources.push_back(source);
    }
    view.background_cd_per_m2 = background_lux / std::numbers::pi;
    std::ranges::stable_sort(view.sources, std::greater{}, weight);
    view.rating = unified_glare_rating(view.sources, view.background_cd_per_m2);
    return view;
}

}  // namespace rakelight
