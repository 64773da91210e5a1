#include "output/glare/share_map.h"

#include <algorithm>
#include <stdexcept>

namespace rakelight {

EncodedSrgb share_colour(double share) {
    const double s = std::clamp(share, 0.0, 1.0);
    const EncodedSrgb all{0.62, 0.21, 0};  // deep orange
    return {1 - s * (1 - all.r), 1 - s * (1 - all.g), 1 - s * (1 - all.b)};
}

Print share_map(const Film& film) {
    Print print{film.width, film.height, {}};
    print.rgb.reserve(3 * film.pixel_count());
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const auto share = static_cast<double>(film.features.first_surface_share[i]);
        const EncodedSrgb c = film.features.piece[i] > 0 ? share_colour(share) : EncodedSrgb{0.5, 0.5, 0.5};
        for (const double v : {c.r, c.g, c.b}) print.rgb.push_back(static_cast<float>(v));
    }
    return print;
}

Film shrunk(const Film& film, int factor) {
    if (factor < 1 || film.width % factor || film.height % factor)
        throw std::invalid_argument("a film that does not shrink evenly");
    if (factor == 1) return film;
    Film small;
    small.width = film.width / factor;
    small.height = film.height / factor;
    small.rows = {0, small.height};
    small.groups = film.groups;
    small.materials = film.materials;
    small.xyz.assign(film.groups.size(), std::vector<glm::vec3>(small.pixel_count(), glm::vec3(0)));
    small.features.first_surface_share.assign(small.pixel_count(), 0);
    small.features.piece.assign(small.pixel_count(), 0);
    const auto pixels = static_cast<float>(factor * factor);
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            const auto to = static_cast<std::size_t>(y) * static_cast<std::size_t>(small.width) +
                            static_cast<std::size_t>(x);
            float mirrored = 0;
            for (int v = 0; v < factor; ++v)
                for (int u = 0; u < factor; ++u) {
                    const auto from =
                        static_cast<std::size_t>(y * factor + v) * static_cast<std::size_t>(film.width) +
                        static_cast<std::size_t>(x * factor + u);
                    for (std::size_t g = 0; g < film.groups.size(); ++g)
                        small.xyz[g][to] += film.xyz[g][from] / pixels;
                    mirrored += film.features.first_surface_share[from] * total_xyz(film, from).y / pixels;
                    if (small.features.piece[to] == 0) small.features.piece[to] = film.features.piece[from];
                }
            const float all = total_xyz(small, to).y;
            small.features.first_surface_share[to] = all > 0 ? mirrored / all : 0;
        }
    return small;
}

}  // namespace rakelight
