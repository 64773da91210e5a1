#include "output/glare/measures/unified_glare.h"

#include <algorithm>
#include <cmath>

#include "output/glare/measures/connected.h"
#include "output/glare/measures/guth.h"

namespace rakelight {

namespace {

double weight(const GlareSource& s) {
    return s.cd_per_m2 * s.cd_per_m2 * s.solid_angle_sr / (s.position * s.position);
}

}  // namespace

std::optional<double> unified_glare_rating(std::span<const GlareSource> sources,
                                           double background_cd_per_m2) {
    double sum = 0;
    for (const GlareSource& s : sources) sum += weight(s);
    if (!(sum > 0) || !(background_cd_per_m2 > 0)) return std::nullopt;
    return 8 * std::log10(0.25 / background_cd_per_m2 * sum);
}

GlareView glare_in_view(std::span<const SeenPatch> patches, int width, const glm::dvec3& sight,
                        const glm::dvec3& up, double times_mean) {
    GlareView view;
    const auto ahead = [&](const SeenPatch& p) { return std::max(0.0, glm::dot(p.direction, sight)); };
    double flux = 0, projected = 0;  // as an upright surface at the eye receives it
    for (const SeenPatch& p : patches) {
        flux += p.cd_per_m2 * p.solid_angle_sr * ahead(p);
        projected += p.solid_angle_sr * ahead(p);
    }
    if (!(projected > 0)) return view;
    view.threshold_cd_per_m2 = times_mean * flux / projected;
    std::vector<char> bright;
    for (const SeenPatch& p : patches)
        bright.push_back(ahead(p) > 0 && p.cd_per_m2 > view.threshold_cd_per_m2);
    for (std::size_t i = 0; i < bright.size(); ++i) {
        if (!bright[i]) continue;
        GlareSource source;
        glm::dvec3 toward(0);
        double light = 0;
        for (const std::size_t k : take_connected(bright, i, static_cast<std::size_t>(width))) {
            const SeenPatch& p = patches[k];
            const double part = p.cd_per_m2 * p.solid_angle_sr;
            light += part;
            toward += part * p.direction;
            source.solid_angle_sr += p.solid_angle_sr;
            flux -= part * ahead(p);
            projected -= p.solid_angle_sr * ahead(p);
        }
        source.direction = glm::normalize(toward);
        source.cd_per_m2 = light / source.solid_angle_sr;
        source.position = position_index(source.direction, sight, up);
        view.sources.push_back(source);
    }
    view.background_cd_per_m2 = projected > 0 ? std::max(0.0, flux / projected) : 0;
    std::sort(view.sources.begin(), view.sources.end(),
              [](const GlareSource& a, const GlareSource& b) { return weight(a) > weight(b); });
    view.rating = unified_glare_rating(view.sources, view.background_cd_per_m2);
    return view;
}

}  // namespace rakelight
