#include "scene/mix/net.h"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <cmath>
#include <numeric>

#include "materials/maths/hash.h"

namespace rakelight {

namespace {

constexpr unsigned kHeirs = 6;

std::uint64_t place_hash(const glm::dvec2& p, std::uint64_t seed) {
    const auto micrometres = [](double mm) { return static_cast<std::uint64_t>(std::llround(mm * 1000)); };
    return hash_combine(hash_combine(seed, micrometres(p.x)), micrometres(p.y));
}

namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Entry = std::pair<Point, std::uint32_t>;

}  // namespace

MixNet mix_net(std::span<const glm::dvec2> centres_mm, std::uint64_t seed) {
    const std::size_t n = centres_mm.size();
    MixNet net;
    for (const auto& p : centres_mm) net.chance.push_back(place_hash(p, seed));
    const auto& chance = net.chance;
    net.order.resize(n);
    std::iota(net.order.begin(), net.order.end(), 0u);
    std::sort(net.order.begin(), net.order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return chance[a] != chance[b] ? chance[a] < chance[b] : a < b;
    });
    // The tree is filled from the last to the first, so that each piece meets its heirs alone.
    bg::index::rtree<Entry, bg::index::quadratic<16>> later;
    std::vector<std::vector<MixNet::Heir>> of(n);
    std::vector<Entry> nearest;
    for (std::size_t k = n; k-- > 0;) {
        const std::uint32_t i = net.order[k];
        const Point at(centres_mm[i].x, centres_mm[i].y);
        nearest.clear();
        later.query(bg::index::nearest(at, kHeirs), std::back_inserter(nearest));
        double total = 0;
        for (const auto& [point, j] : nearest) {
            const double near = 1 / std::max(1e-3, glm::distance(centres_mm[i], centres_mm[j]));
            of[i].push_back({j, near});
            total += near;
        }
        for (auto& heir : of[i]) heir.share /= total;
        later.insert({at, i});
    }
    net.first.push_back(0);
    for (const auto& heirs : of) {
        net.heirs.insert(net.heirs.end(), heirs.begin(), heirs.end());
        net.first.push_back(net.heirs.size());
    }
    return net;
}

}  // namespace rakelight
