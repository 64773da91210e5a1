#include "output/glare/measures/panel_glare.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "output/glare/measures/bright_patches.h"
#include "output/glare/measures/expected_glare.h"
#include "output/glare/measures/pixel_sums.h"
#include "output/glare/measures/sparkles.h"

namespace rakelight {

namespace {

constexpr double kLocal_deg = 0.5;
constexpr double kLeastBody = 0.05;  // of the panel's mean

double angle_deg(const glm::dvec3& a, const glm::dvec3& b) {
    return glm::degrees(std::acos(std::clamp(glm::dot(a, b), -1.0, 1.0)));
}

// What each pixel mirrors, of all lamps and of each group, and what is seen of it besides.
struct Light {
    std::vector<double> mirrored, body;
    std::vector<std::vector<double>> of_group;
};

Light light_in(const Film& film, const std::vector<SeenPatch>& seen) {
    Light light{std::vector<double>(film.pixel_count()), std::vector<double>(film.pixel_count()), {}};
    light.of_group.assign(film.groups.size(), std::vector<double>(film.pixel_count()));
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const double share = film.features.first_surface_share[i];
        light.mirrored[i] = share * seen[i].cd_per_m2;
        light.body[i] = seen[i].cd_per_m2 - light.mirrored[i];
        for (std::size_t g = 0; g < film.groups.size(); ++g)
            light.of_group[g][i] = film.mirrored.empty() ? share * static_cast<double>(film.xyz[g][i].y)
                                                         : static_cast<double>(film.mirrored[g][i]);
    }
    return light;
}

// The group that these pixels mirror most of.
std::uint32_t mirrored_most(const Light& light, const std::vector<SeenPatch>& seen,
                            const std::vector<std::size_t>& pixels) {
    std::uint32_t group = 0;
    double most = 0;
    for (std::uint32_t g = 0; g < light.of_group.size(); ++g) {
        double sum = 0;
        for (const std::size_t i : pixels) sum += light.of_group[g][i] * seen[i].solid_angle_sr;
        if (sum > most) most = sum, group = g;
    }
    return group;
}

std::vector<FieldLight> fields_in(const Film& film, const Light& light, const std::vector<SeenPatch>& seen,
                                  const std::vector<std::uint32_t>& field_of_piece) {
    std::map<std::uint32_t, std::vector<std::size_t>> pixels_of;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const std::int32_t piece = film.features.piece[i];  // after the pieces come placed stones
        if (piece > 0 && static_cast<std::size_t>(piece) <= field_of_piece.size())
            pixels_of[field_of_piece[static_cast<std::size_t>(piece) - 1]].push_back(i);
    }
    std::vector<FieldLight> fields;
    for (const auto& [field, pixels] : pixels_of) {
        FieldLight here{field, 0, 0, mirrored_most(light, seen, pixels)};
        double solid = 0;
        for (const std::size_t i : pixels) {
            here.body_cd_per_m2 += light.body[i] * seen[i].solid_angle_sr;
            here.mirrored_cd_per_m2 += light.mirrored[i] * seen[i].solid_angle_sr;
            solid += seen[i].solid_angle_sr;
        }
        here.body_cd_per_m2 /= solid;
        here.mirrored_cd_per_m2 /= solid;
        fields.push_back(here);
    }
    return fields;
}

// The body round every pixel of a panel seen under `panel_sr`.
std::vector<double> local_body(const Film& film, const std::vector<SeenPatch>& seen,
                               const std::vector<double>& body, double panel_sr, double pixel_deg) {
    const auto on = [&](std::size_t i) { return film.features.piece[i] > 0; };
    double panel = 0;
    for (std::size_t i = 0; i < body.size(); ++i)
        if (on(i)) panel += body[i] * seen[i].solid_angle_sr;
    const double least = kLeastBody * panel / panel_sr;
    const int reach = std::max(1, static_cast<int>(std::lround(kLocal_deg / pixel_deg)));
    std::vector<double> local = local_means(film.width, film.height, reach, [&](std::size_t i) {
        return on(i) ? glm::dvec2(body[i], 1) : glm::dvec2(0);
    });
    for (double& l : local) l = std::max({l, least, 1e-9});
    return local;
}

// Of the patches, all of one lamp group: those that outshine the panel, else the one that comes nearest.
std::vector<FoundPatch> marks_of(const MirroredView& view, const GlareLimits& limits) {
    std::vector<FoundPatch> found = bright_patches(view, limits.patch_ratio);
    if (!found.empty() || limits.veil_ratio - 1 >= limits.patch_ratio) return found;
    found = bright_patches(view, limits.veil_ratio - 1);
    const auto most = std::max_element(found.begin(), found.end(),
                                       [](const auto& a, const auto& b) { return a.times < b.times; });
    return most == found.end() ? found : std::vector{std::move(*most)};
}

double light_sent(const BrightPatch& patch) {
    return patch.cd_per_m2 * patch.size_deg * patch.size_deg;
}

}  // namespace

PanelGlare panel_glare(const Film& film, const std::vector<SeenPatch>& patches,
                       const std::vector<std::uint32_t>& field_of_piece, double panel_m2,
                       const GlareLimits& limits) {
    PanelGlare glare;
    double panel_sr = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i)
        if (film.features.piece[i] > 0) panel_sr += patches[i].solid_angle_sr;
    if (!(panel_sr > 0)) return glare;
    const Light light = light_in(film, patches);
    glare.fields = fields_in(film, light, patches, field_of_piece);

    const auto width = static_cast<std::size_t>(film.width), height = static_cast<std::size_t>(film.height);
    const std::size_t middle = height / 2 * width + width / 2;
    const double pixel_deg = angle_deg(patches[middle].direction, patches[middle - 1].direction);
    const std::vector<double> local = local_body(film, patches, light.body, panel_sr, pixel_deg);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        if (film.features.piece[i] <= 0) continue;
        const double part = patches[i].solid_angle_sr / panel_sr, times = light.mirrored[i] / local[i];
        if (times > limits.bright_ratio) glare.bright_share += part;
        if (times > limits.dazzling_ratio) glare.dazzling_share += part;
        glare.score += 100 * part * glare_weight(light.mirrored[i], local[i], limits.veil_ratio);
    }
    const MirroredView all{film, patches, light.mirrored, local, pixel_deg};
    const std::vector<FoundPatch> found = bright_patches(all, limits.patch_ratio);
    for (const FoundPatch& patch : found) {
        glare.patches.push_back(patch);
        glare.patches.back().group = mirrored_most(light, patches, patch.pixels);
    }
    glare.sparkles_per_m2 = count_sparkles(all, found, limits.bright_spot_deg / 2) / panel_m2;
    for (std::uint32_t g = 0; g < film.groups.size(); ++g)
        for (const BrightPatch& patch :
             marks_of({film, patches, light.of_group[g], local, pixel_deg}, limits)) {
            glare.marks.push_back(patch);
            glare.marks.back().group = g;
        }
    std::sort(glare.marks.begin(), glare.marks.end(),
              [](const BrightPatch& a, const BrightPatch& b) { return light_sent(a) > light_sent(b); });
    return glare;
}

bool stands_out(const GlareLimits& limits, double cd_per_m2, double view_cd_per_m2) {
    constexpr double kFarOver = 10;
    return cd_per_m2 > limits.surround * view_cd_per_m2 &&
           (cd_per_m2 > limits.least_cd_per_m2 || cd_per_m2 > kFarOver * view_cd_per_m2);
}

const char* score_word(double score) {
    return score < 0.01  ? "none"
           : score < 0.1 ? "slight"
           : score < 1   ? "clear"
           : score < 10  ? "strong"
                         : "overwhelming";
}

}  // namespace rakelight
