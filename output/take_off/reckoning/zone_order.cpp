#include "output/take_off/reckoning/zone_order.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace rakelight {

namespace {

// Indices of edges along a circle, or nothing.
std::vector<std::size_t> find_circle(std::size_t zones, const std::vector<OrderEdge>& edges) {
    enum class Mark { fresh, open, done };
    std::vector<Mark> mark(zones, Mark::fresh);
    std::vector<std::size_t> way, circle;
    const std::function<bool(std::size_t)> walk = [&](std::size_t zone) {
        mark[zone] = Mark::open;
        for (std::size_t e = 0; e < edges.size(); ++e) {
            if (edges[e].given_up || edges[e].before != zone) continue;
            const std::size_t next = edges[e].after;
            if (mark[next] == Mark::done) continue;
            way.push_back(e);
            if (mark[next] == Mark::open) {
                const auto start = std::find_if(way.begin(), way.end(),
                                                [&](std::size_t k) { return edges[k].before == next; });
                circle.assign(start, way.end());
                return true;
            }
            if (walk(next)) return true;
            way.pop_back();
        }
        mark[zone] = Mark::done;
        return false;
    };
    for (std::size_t zone = 0; zone < zones; ++zone)
        if (mark[zone] == Mark::fresh && walk(zone)) break;
    return circle;
}

std::size_t named(const std::vector<ZoneTraits>& zones, const std::string& name) {
    return static_cast<std::size_t>(
        std::find_if(zones.begin(), zones.end(), [&](const ZoneTraits& z) { return z.name == name; }) -
        zones.begin());
}

// Of zones that may both be next and are as light: the upper, the larger, the unsanded, cement.
bool sooner(const ZoneTraits& a, const ZoneTraits& b) {
    constexpr double kSameHeight_mm = 20;
    if (std::abs(a.middle_y_mm - b.middle_y_mm) > kSameHeight_mm) return a.middle_y_mm > b.middle_y_mm;
    if (a.area_mm2 != b.area_mm2) return a.area_mm2 > b.area_mm2;
    if (a.sanded != b.sanded) return !a.sanded;
    return !a.epoxy && b.epoxy;
}

std::size_t pick(const std::vector<ZoneTraits>& zones, const std::vector<std::size_t>& ready) {
    double lightest = -1;
    for (const std::size_t z : ready) lightest = std::max(lightest, zones[z].lightness);
    std::size_t best = zones.size();
    for (const std::size_t z : ready)
        if (zones[z].lightness > lightest - kImmaterialLightness &&
            (best == zones.size() || sooner(zones[z], zones[best])))
            best = z;
    return best;
}

}  // namespace

ZoneOrder order_zones(const std::vector<ZoneTraits>& zones,
                      const std::vector<std::pair<std::size_t, std::size_t>>& touching,
                      const std::vector<BeforeWish>& wishes) {
    ZoneOrder out;
    for (const BeforeWish& wish : wishes)
        out.edges.push_back(
            {named(zones, wish.first), named(zones, wish.then), OrderEdge::Why::wish, 0, false});
    for (const auto& [a, b] : touching) {
        const double by = zones[a].lightness - zones[b].lightness;
        if (std::abs(by) < kImmaterialLightness)
            out.alike.emplace_back(a, b);
        else
            out.edges.push_back(
                {by > 0 ? a : b, by > 0 ? b : a, OrderEdge::Why::lighter, std::abs(by), false});
        if (zones[a].unsealed_pores != zones[b].unsealed_pores)
            out.edges.push_back({zones[a].unsealed_pores ? a : b, zones[a].unsealed_pores ? b : a,
                                 OrderEdge::Why::pores, 0, false});
    }
    const auto strength = [&](std::size_t e) {
        return std::pair(static_cast<int>(out.edges[e].why), out.edges[e].by);
    };
    for (auto circle = find_circle(zones.size(), out.edges); !circle.empty();
         circle = find_circle(zones.size(), out.edges)) {
        std::vector<std::size_t> names;
        for (const std::size_t e : circle) names.push_back(out.edges[e].before);
        out.cycles.push_back(std::move(names));
        const std::size_t weakest = *std::min_element(
            circle.begin(), circle.end(), [&](auto a, auto b) { return strength(a) < strength(b); });
        out.edges[weakest].given_up = true;
    }
    std::vector<std::size_t> waits(zones.size(), 0);
    for (const OrderEdge& edge : out.edges)
        if (!edge.given_up) ++waits[edge.after];
    std::vector<char> done(zones.size(), 0);
    while (out.order.size() < zones.size()) {
        std::vector<std::size_t> ready;
        for (std::size_t z = 0; z < zones.size(); ++z)
            if (!done[z] && waits[z] == 0) ready.push_back(z);
        const std::size_t next = pick(zones, ready);
        done[next] = 1;
        out.order.push_back(next);
        for (const OrderEdge& edge : out.edges)
            if (!edge.given_up && edge.before == next) --waits[edge.after];
    }
    return out;
}

std::vector<std::string> cycle_of_wishes(const std::vector<std::string>& zones,
                                         const std::vector<BeforeWish>& wishes) {
    std::vector<ZoneTraits> traits;
    for (const std::string& name : zones) traits.push_back({name});
    std::vector<OrderEdge> edges;
    for (const BeforeWish& wish : wishes)
        edges.push_back(
            {named(traits, wish.first), named(traits, wish.then), OrderEdge::Why::wish, 0, false});
    std::vector<std::string> names;
    const auto circle = find_circle(zones.size(), edges);
    for (const std::size_t e : circle) names.push_back(zones[edges[e].before]);
    if (!circle.empty()) names.push_back(zones[edges[circle.back()].after]);
    return names;
}

}  // namespace rakelight
