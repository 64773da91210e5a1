#include "scene/cells.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <boost/polygon/voronoi.hpp>
#include <cmath>
#include <cstdint>

#include "scene/edge_index.h"

namespace rakelight {

namespace {

using Diagram = boost::polygon::voronoi_diagram<double>;
constexpr double kPerMm = 1e4;

struct Side {
    glm::dvec2 from;
    glm::dvec2 to;
};

glm::dvec2 at(const Diagram::vertex_type* v) {
    return glm::dvec2(v->x(), v->y()) / kPerMm;
}

// Orders the sides of one owner into its longest closed chain. Shared ends are equal to the bit.
Ring chained(std::vector<Side> sides) {
    Ring best;
    while (!sides.empty()) {
        Ring ring{sides.back().from};
        glm::dvec2 end = sides.back().to;
        sides.pop_back();
        while (end != ring.front()) {
            ring.push_back(end);
            const auto next =
                std::find_if(sides.begin(), sides.end(), [&](const Side& s) { return s.from == end; });
            if (next == sides.end()) break;
            end = next->to;
            *next = sides.back();
            sides.pop_back();
        }
        if (ring.size() > best.size()) best = std::move(ring);
    }
    return best;
}

// The whole diagram: one ring a seed, reaching beyond the region at its edges.
std::vector<Ring> open_cells(std::span<const Seed> seeds, const Box& box) {
    std::vector<boost::polygon::point_data<std::int32_t>> sites;
    std::vector<std::uint32_t> owner;
    const auto add = [&](const glm::dvec2& p, std::size_t seed) {
        sites.emplace_back(static_cast<std::int32_t>(std::lround(p.x * kPerMm)),
                           static_cast<std::int32_t>(std::lround(p.y * kPerMm)));
        owner.push_back(static_cast<std::uint32_t>(seed));
    };
    for (std::size_t s = 0; s < seeds.size(); ++s)
        for (const auto& p : seeds[s].points_mm) add(p, s);
    // Far guards, so that every real cell is bounded.
    const glm::dvec2 middle = (box.low + box.high) / 2.0;
    const double away = 4 * std::max(box.size().x, box.size().y) + 100;
    for (int i = 0; i < 12; ++i) {
        const double turn = i * 0.5235987755982988;
        add(middle + away * glm::dvec2(std::cos(turn), std::sin(turn)), seeds.size());
    }
    Diagram diagram;
    boost::polygon::construct_voronoi(sites.begin(), sites.end(), &diagram);
    std::vector<std::vector<Side>> sides(seeds.size());
    for (const auto& edge : diagram.edges()) {
        const auto mine = owner[edge.cell()->source_index()];
        if (mine == seeds.size() || mine == owner[edge.twin()->cell()->source_index()] || !edge.is_finite())
            continue;
        const Side side{at(edge.vertex0()), at(edge.vertex1())};
        if (side.from != side.to) sides[mine].push_back(side);
    }
    std::vector<Ring> rings(seeds.size());
    tbb::parallel_for(std::size_t{0}, seeds.size(),
                      [&](std::size_t s) { rings[s] = chained(std::move(sides[s])); });
    return rings;
}

}  // namespace

Cells share_out(std::span<const Seed> seeds, const Region& region) {
    Cells cells;
    cells.of_seed.resize(seeds.size());
    if (seeds.empty() || region.empty()) return cells;
    const Box box = bounds(region);
    std::vector<Ring> open = open_cells(seeds, box);
    const double reach = 2 * std::sqrt(area_mm2(region) / static_cast<double>(seeds.size()));
    const EdgeIndex edges(region, reach);
    std::vector<std::vector<Ring>> orphans(seeds.size());
    tbb::parallel_for(std::size_t{0}, seeds.size(), [&](std::size_t s) {
        if (open[s].size() < 3 || seeds[s].points_mm.empty()) return;
        const auto& points = seeds[s].points_mm;
        const glm::dvec2 heart = points[points.size() / 2];
        double radius = 0;
        for (const auto& p : open[s]) radius = std::max(radius, glm::distance(p, heart));
        if (radius < edges.distance_mm(heart) && contains(region, heart)) {
            cells.of_seed[s] = std::move(open[s]);
            return;
        }
        Ring main;
        double best = -1;
        for (const auto& ring : intersect(region_of(open[s]), region).rings) {
            const double area = area_mm2(ring);
            if (area <= 0) continue;
            int held = 0;
            for (const auto& p : points) held += contains(ring, p);
            const double rank = held * 1e6 + area;
            if (rank > best) {
                if (!main.empty()) orphans[s].push_back(main);
                best = rank;
                main = ring;
            } else {
                orphans[s].push_back(ring);
            }
        }
        cells.of_seed[s] = std::move(main);
    });
    for (auto& list : orphans)
        for (auto& ring : list) cells.orphans.push_back(std::move(ring));
    return cells;
}

Cells settle(std::vector<Seed>& seeds, const Region& region, int rounds, double pull,
             double least_orphan_mm2) {
    Cells cells = share_out(seeds, region);
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t s = 0; s < seeds.size(); ++s) {
            if (cells.of_seed[s].size() < 3) continue;
            glm::dvec2 mean{0};
            for (const auto& p : seeds[s].points_mm) mean += p;
            mean /= static_cast<double>(seeds[s].points_mm.size());
            const glm::dvec2 shift = pull * (centroid(cells.of_seed[s]) - mean);
            for (auto& p : seeds[s].points_mm) p += shift;
        }
        for (const auto& ring : cells.orphans)
            if (area_mm2(ring) >= least_orphan_mm2) seeds.push_back({{centroid(ring)}, {1, 0}});
        cells = share_out(seeds, region);
    }
    return cells;
}

}  // namespace rakelight
