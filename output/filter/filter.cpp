#include "output/filter/filter.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "output/filter/regression.h"

namespace rakelight {

namespace filter {

namespace {

static_assert(kFilterReach_px >= kReach_px + kPatch_px && kRim_px >= kReach_px + kPatch_px + 16);

// Light of bodies of the eight pixels from (x, y) on, XYZ in cd/m2.
std::array<Floats, 3> body_of(const BodyLight& light, Weights& by_first, Weights& by_second, int row,
                              int eight, int x, int y) {
    const std::array<Floats, 3> a = regressed(light, by_first, row, eight, x, y, true);
    const std::array<Floats, 3> b = regressed(light, by_second, row, eight, x, y, false);
    std::array<Floats, 3> xyz;
    for (std::size_t c = 0; c < 3; ++c)
        xyz[c] = max((a[c] + b[c]) * 0.5f, Floats{}) * light.colour[c].eight(x, y);
    return xyz;
}

void filter_tile(const Film& film, const BodyLight& light, int left, int top, std::vector<glm::vec3>& out) {
    static thread_local Weights by_first, by_second;
    weigh(light, left, top, by_first, by_second);
    for (int row = 0; row < std::min(kTileRows, film.height - top); ++row)
        for (int eight = 0; eight < kTileEights && left + 8 * eight < film.width; ++eight) {
            const int x = left + 8 * eight, y = top + row;
            const std::array<Floats, 3> body = body_of(light, by_first, by_second, row, eight, x, y);
            for (int k = 0; k < std::min(8, film.width - x); ++k) {
                const std::size_t i = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                                      static_cast<std::size_t>(x + k);
                out[i] = total_xyz(film, i) * film.features.first_surface_share[i] +
                         glm::vec3(body[0][k], body[1][k], body[2][k]);
            }
        }
}

}  // namespace

}  // namespace filter

bool can_be_filtered(const Film& film) {
    return film.guide.is_there &&
           std::ranges::all_of(film.samples, [](int samples) { return samples >= kFewestToFilter; });
}

Film filtered(const Film& film) {
    std::vector<glm::vec3> xyz(film.pixel_count());
    if (can_be_filtered(film)) {
        const filter::BodyLight light = filter::body_light(film);
        constexpr int kWide = 8 * filter::kTileEights, kHigh = filter::kTileRows;
        const int across = (film.width + kWide - 1) / kWide, down = (film.height + kHigh - 1) / kHigh;
        tbb::parallel_for(0, across * down, [&](int tile) {
            filter::filter_tile(film, light, tile % across * kWide, tile / across * kHigh, xyz);
        });
    } else {
        for (std::size_t i = 0; i < xyz.size(); ++i) xyz[i] = total_xyz(film, i);
    }
    Film calm = film;
    calm.groups = {"all"};
    calm.xyz = {std::move(xyz)};
    calm.mirrored.clear();
    return calm;
}

}  // namespace rakelight
