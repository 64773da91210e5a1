#include "output/panel_glare.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "output/hot_patches.h"
#include "output/pixel_sums.h"
#include "scene/expected_glare.h"

namespace rakelight {

namespace {

constexpr double kLocal_deg = 0.5;
constexpr double kTogether_deg = 0.5;
constexpr double kLeastBody = 0.05;  // of the panel's mean

double angle_deg(const glm::dvec3& a, const glm::dvec3& b) {
    return glm::degrees(std::acos(std::clamp(glm::dot(a, b), -1.0, 1.0)));
}

// The mean of `body` over the panel's pixels within `reach` pixels each way.
std::vector<double> local_means(const Film& film, const std::vector<double>& body, int reach) {
    PixelSums sums(film.width, film.height);
    const auto index = [&](int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
               static_cast<std::size_t>(x);
    };
    for (int y = 0; y < film.height; ++y) {
        glm::dvec2 row(0);
        for (int x = 0; x < film.width; ++x) {
            if (film.features.piece[index(x, y)] > 0) row += glm::dvec2(body[index(x, y)], 1);
            sums.at(x + 1, y + 1) = sums.at(x + 1, y) + row;
        }
    }
    std::vector<double> means(film.pixel_count());
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const glm::dvec2 sum =
                sums.over(glm::max(glm::ivec2(x, y) - reach, 0),
                          glm::min(glm::ivec2(x, y) + reach + 1, glm::ivec2(film.width, film.height)));
            means[index(x, y)] = sum.y > 0 ? sum.x / sum.y : 0;
        }
    return means;
}

// Light that each pixel mirrors, of all lamps and of each group.
struct Mirrored {
    std::vector<double> all;
    std::vector<std::vector<double>> of_group;
};

Mirrored mirrored_in(const Film& film, const std::vector<SeenPatch>& seen) {
    Mirrored m{std::vector<double>(film.pixel_count()), {}};
    m.of_group.assign(film.groups.size(), std::vector<double>(film.pixel_count()));
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const double share = film.features.first_surface_share[i];
        m.all[i] = share * seen[i].cd_per_m2;
        for (std::size_t g = 0; g < film.groups.size(); ++g)
            m.of_group[g][i] = film.mirrored.empty() ? share * static_cast<double>(film.xyz[g][i].y)
                                                     : static_cast<double>(film.mirrored[g][i]);
    }
    return m;
}

// What a piece flashes with.
struct Flash {
    double light = 0;  // lux at the eye
    double body = 0;   // under its brightest pixel
    double brightest = 0;
    double size_deg = 0;  // of the largest patch that it has part in
};

double sparks_in(const std::map<std::int32_t, Flash>& flashes, const GlareLimits& limits) {
    return static_cast<double>(std::count_if(flashes.begin(), flashes.end(), [&](const auto& entry) {
        const Flash& f = entry.second;
        return f.light > kFlashTimes * just_seen_lux(f.body) && f.size_deg <= limits.patch_deg / 4;
    }));
}

}  // namespace

double just_seen_lux(double background_cd_per_m2) {
    const double root = 1 + std::sqrt(0.4 * background_cd_per_m2);
    return 0.242e-6 * root * root;
}

PanelGlare panel_glare(const Film& film, const std::vector<SeenPatch>& patches,
                       const std::vector<std::uint32_t>& field_of_piece, double panel_m2,
                       const GlareLimits& limits) {
    PanelGlare glare;
    const std::size_t count = film.pixel_count();
    const Mirrored light = mirrored_in(film, patches);
    const std::vector<double>& mirrored = light.all;
    std::vector<double> body(count);
    double panel_sr = 0, panel_body = 0;
    std::map<std::uint32_t, std::pair<FieldLight, double>> fields;
    for (std::size_t i = 0; i < count; ++i) {
        body[i] = patches[i].cd_per_m2 - mirrored[i];
        const std::int32_t piece = film.features.piece[i];
        if (piece <= 0) continue;
        const double sr = patches[i].solid_angle_sr;
        panel_sr += sr;
        panel_body += body[i] * sr;
        if (static_cast<std::size_t>(piece) > field_of_piece.size()) continue;  // a placed stone
        const std::uint32_t field = field_of_piece[static_cast<std::size_t>(piece) - 1];
        auto& [here, of_sr] = fields[field];
        here.field = field;
        here.body_cd_per_m2 += body[i] * sr;
        here.mirrored_cd_per_m2 += mirrored[i] * sr;
        of_sr += sr;
    }
    if (!(panel_sr > 0)) return glare;
    for (auto& [field, entry] : fields) {
        entry.first.body_cd_per_m2 /= entry.second;
        entry.first.mirrored_cd_per_m2 /= entry.second;
        glare.fields.push_back(entry.first);
    }

    const std::size_t middle = count / 2 + static_cast<std::size_t>(film.width) / 2;
    const double pixel_deg = angle_deg(patches[middle].direction, patches[middle - 1].direction);
    auto local = local_means(film, body, std::max(1, static_cast<int>(std::lround(kLocal_deg / pixel_deg))));
    const double least = kLeastBody * panel_body / panel_sr;
    for (double& l : local) l = std::max({l, least, 1e-9});
    for (std::size_t i = 0; i < count; ++i) {
        if (film.features.piece[i] <= 0) continue;
        const double part = patches[i].solid_angle_sr / panel_sr, times = mirrored[i] / local[i];
        if (times > limits.hot) glare.hot_share += part;
        if (times > limits.blinding) glare.blinding_share += part;
        glare.score += 100 * part * glare_weight(mirrored[i], local[i], limits.veil);
    }
    const int reach = std::max(1, static_cast<int>(std::lround(kTogether_deg / 2 / pixel_deg)));
    std::map<std::int32_t, Flash> flashes;
    glare.patches =
        hot_patches(film, patches, mirrored, local, limits, reach,
                    [&](HotPatch& patch, const std::vector<std::size_t>& pixels) {
                        std::vector<double> by_group(film.groups.size(), 0.0);
                        for (const std::size_t i : pixels) {
                            for (std::size_t g = 0; g < by_group.size(); ++g)
                                by_group[g] += light.of_group[g][i] * patches[i].solid_angle_sr;
                            Flash& flash = flashes[film.features.piece[i]];
                            flash.light += mirrored[i] * patches[i].solid_angle_sr;
                            flash.size_deg = std::max(flash.size_deg, patch.size_deg);
                            if (mirrored[i] > flash.brightest)
                                flash.brightest = mirrored[i], flash.body = local[i];
                        }
                        patch.group = static_cast<std::uint32_t>(
                            std::max_element(by_group.begin(), by_group.end()) - by_group.begin());
                    });
    glare.sparks_per_m2 = sparks_in(flashes, limits) / panel_m2;
    for (std::uint32_t g = 0; g < film.groups.size(); ++g)
        for (HotPatch patch : hot_patches(film, patches, light.of_group[g], local, limits, reach,
                                          [](const HotPatch&, const auto&) {})) {
            patch.group = g;
            glare.marks.push_back(patch);
        }
    const auto light_sent = [](const HotPatch& p) { return p.cd_per_m2 * p.size_deg * p.size_deg; };
    std::sort(glare.marks.begin(), glare.marks.end(),
              [&](const HotPatch& a, const HotPatch& b) { return light_sent(a) > light_sent(b); });
    return glare;
}

}  // namespace rakelight
