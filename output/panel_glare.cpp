#include "output/panel_glare.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "output/connected.h"

namespace rakelight {

namespace {

constexpr double kLocal_deg = 0.5;
constexpr double kLeastBody = 0.05;  // of the panel's mean

double angle_deg(const glm::dvec3& a, const glm::dvec3& b) {
    return glm::degrees(std::acos(std::clamp(glm::dot(a, b), -1.0, 1.0)));
}

// Sums of values and of pixels over rectangles from the upper left corner (a summed-area table, Crow 1984).
class Sums {
  public:
    Sums(int width, int height)
        : width_(width), sums_(static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1)) {}
    glm::dvec2& at(int x, int y) {
        return sums_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) +
                     static_cast<std::size_t>(x)];
    }
    glm::dvec2 over(glm::ivec2 low, glm::ivec2 end) {
        return at(end.x, end.y) - at(low.x, end.y) - at(end.x, low.y) + at(low.x, low.y);
    }

  private:
    int width_;
    std::vector<glm::dvec2> sums_;
};

// The mean of `body` over the panel's pixels within `reach` pixels each way.
std::vector<double> local_means(const Film& film, const std::vector<double>& body, int reach) {
    Sums sums(film.width, film.height);
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

HotPatch patch_of(const Film& film, const std::vector<SeenPatch>& seen, const std::vector<double>& mirrored,
                  const std::vector<std::size_t>& pixels) {
    HotPatch patch;
    double solid = 0, light = 0;
    std::vector<double> by_group(film.groups.size(), 0.0);
    glm::dvec2 middle(0);
    for (const std::size_t i : pixels) {
        const double part = mirrored[i] * seen[i].solid_angle_sr;
        solid += seen[i].solid_angle_sr;
        light += part;
        const auto width = static_cast<std::size_t>(film.width);
        middle +=
            part * glm::dvec2(static_cast<double>(i % width) + 0.5, static_cast<double>(i / width) + 0.5);
        for (std::size_t g = 0; g < by_group.size(); ++g)
            by_group[g] += static_cast<double>(film.xyz[g][i].y) * seen[i].solid_angle_sr;
        if (mirrored[i] > patch.most_cd_per_m2) {
            patch.most_cd_per_m2 = mirrored[i];
            patch.piece = film.features.piece[i];
        }
    }
    patch.size_deg = glm::degrees(2 * std::sqrt(solid / std::numbers::pi));
    patch.cd_per_m2 = light / solid;
    patch.group =
        static_cast<std::uint32_t>(std::max_element(by_group.begin(), by_group.end()) - by_group.begin());
    patch.pixel = middle / light;
    return patch;
}

}  // namespace

PanelGlare panel_glare(const Film& film, const std::vector<SeenPatch>& patches,
                       const std::vector<std::uint32_t>& field_of_piece, double panel_m2,
                       const GlareLimits& limits) {
    PanelGlare glare;
    const std::size_t count = film.pixel_count();
    std::vector<double> body(count), mirrored(count);
    double panel_sr = 0, panel_body = 0;
    std::map<std::uint32_t, std::pair<FieldLight, double>> fields;
    for (std::size_t i = 0; i < count; ++i) {
        const double share = film.features.first_surface_share[i];
        mirrored[i] = share * patches[i].cd_per_m2;
        body[i] = (1 - share) * patches[i].cd_per_m2;
        const std::int32_t piece = film.features.piece[i];
        if (piece <= 0) continue;
        const double sr = patches[i].solid_angle_sr;
        panel_sr += sr;
        panel_body += body[i] * sr;
        if (static_cast<std::size_t>(piece) > field_of_piece.size()) continue;  // a placed stone
        const std::uint32_t field = field_of_piece[static_cast<std::size_t>(piece) - 1];
        auto& [light, of_sr] = fields[field];
        light.field = field;
        light.body_cd_per_m2 += body[i] * sr;
        light.mirrored_cd_per_m2 += mirrored[i] * sr;
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
    const auto local =
        local_means(film, body, std::max(1, static_cast<int>(std::lround(kLocal_deg / pixel_deg))));
    const double least = kLeastBody * panel_body / panel_sr;
    std::vector<char> hot(count, 0), blinding(count, 0);
    for (std::size_t i = 0; i < count; ++i) {
        if (film.features.piece[i] <= 0) continue;
        const double times = mirrored[i] / std::max({local[i], least, 1e-9});
        hot[i] = times > limits.hot;
        if (times > limits.hot) glare.hot_share += patches[i].solid_angle_sr / panel_sr;
        blinding[i] = times > limits.blinding;
        if (blinding[i]) glare.blinding_share += patches[i].solid_angle_sr / panel_sr;
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (!hot[i]) continue;
        const auto pixels = take_connected(hot, i, static_cast<std::size_t>(film.width));
        glare.patches.push_back(patch_of(film, patches, mirrored, pixels));
        glare.patches.back().blinding =
            std::any_of(pixels.begin(), pixels.end(), [&](std::size_t k) { return blinding[k] != 0; });
    }
    std::sort(glare.patches.begin(), glare.patches.end(),
              [](const HotPatch& a, const HotPatch& b) { return a.size_deg > b.size_deg; });
    const auto sparks = std::count_if(glare.patches.begin(), glare.patches.end(), [&](const HotPatch& p) {
        return p.blinding && p.size_deg <= limits.patch_deg / 4;
    });
    glare.sparks_per_m2 = static_cast<double>(sparks) / panel_m2;
    return glare;
}

}  // namespace rakelight
