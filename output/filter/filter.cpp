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

// Adds the filtered light of a tile.
void filter_tile(const BodyLight& light, int left, int top, std::vector<glm::vec3>& out) {
    static thread_local Weights by_first, by_second;
    weigh(light, left, top, by_first, by_second);
    for (int row = 0; row < std::min(kTileRows, light.height - top); ++row)
        for (int eight = 0; eight < kTileEights && left + 8 * eight < light.width; ++eight) {
            const int x = left + 8 * eight, y = top + row;
            const std::array<Floats, 3> body = body_of(light, by_first, by_second, row, eight, x, y);
            for (int k = 0; k < std::min(8, light.width - x); ++k)
                out[static_cast<std::size_t>(y) * static_cast<std::size_t>(light.width) +
                    static_cast<std::size_t>(x + k)] += glm::vec3(body[0][k], body[1][k], body[2][k]);
        }
}

void add_filtered(const BodyLight& light, std::vector<glm::vec3>& out) {
    constexpr int kWide = 8 * kTileEights, kHigh = kTileRows;
    const int across = (light.width + kWide - 1) / kWide, down = (light.height + kHigh - 1) / kHigh;
    tbb::parallel_for(0, across * down, [&](int tile) {
        filter_tile(light, tile % across * kWide, tile / across * kHigh, out);
    });
}

}  // namespace

}  // namespace filter

bool can_be_filtered(const Film& film) {
    return film.guide.is_there &&
           std::ranges::all_of(film.samples, [](int samples) { return samples >= kFewestToFilter; });
}

Film filtered(const Film& film) {
    const bool can = can_be_filtered(film);
    std::vector<glm::vec3> xyz(film.pixel_count());
    for (std::size_t i = 0; i < xyz.size(); ++i)
        xyz[i] = total_xyz(film, i) * (can ? film.features.first_surface_share[i] : 1);
    if (can)
        for (const filter::Layer layer : {filter::Layer::direct, filter::Layer::indirect})
            filter::add_filtered(filter::body_light(film, layer), xyz);
    Film calm = film;
    calm.groups = {"all"};
    calm.xyz = {std::move(xyz)};
    calm.mirrored.clear();
    return calm;
}

}  // namespace rakelight
