#include "scene/flow/cells.h"

#include <tbb/parallel_for.h>
#include <numbers>

#include <algorithm>
#include <boost/polygon/voronoi.hpp>
#include <cmath>
#include <cstdint>

#include "scene/geometry/edge_index.h"
#include "scene/geometry/region_tiles.h"

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

// The cells of the seeds named by `which`, in a diagram of these alone; those not `wanted` only lend their
// points. Cells reach beyond the region at its edges.
void add_open_cells(std::span<const Seed> seeds, const std::vector<std::uint32_t>& which,
                    const std::vector<char>& wanted, const Box& box, std::vector<Ring>& rings) {
    std::vector<boost::polygon::point_data<std::int32_t>> sites;
    std::vector<std::uint32_t> owner;  // index into `which`
    const auto add = [&](const glm::dvec2& p, std::size_t seed) {
        sites.emplace_back(static_cast<std::int32_t>(std::lround(p.x * kPerMm)),
                           static_cast<std::int32_t>(std::lround(p.y * kPerMm)));
        owner.push_back(static_cast<std::uint32_t>(seed));
    };
    for (std::size_t w = 0; w < which.size(); ++w)
        for (const auto& p : seeds[which[w]].points_mm) add(p, w);
    // Far guards, so that every real cell is bounded.
    const glm::dvec2 middle = (box.low + box.high) / 2.0;
    const double away = 4 * std::max(box.size().x, box.size().y) + 100;
    for (int i = 0; i < 12; ++i) {
        const double turn = i * (std::numbers::pi / 6);
        add(middle + away * glm::dvec2(std::cos(turn), std::sin(turn)), which.size());
    }
    Diagram diagram;
    boost::polygon::construct_voronoi(sites.begin(), sites.end(), &diagram);
    std::vector<std::vector<Side>> sides(which.size());
    for (const auto& edge : diagram.edges()) {
        const auto mine = owner[edge.cell()->source_index()];
        if (mine == which.size() || !wanted[mine] || mine == owner[edge.twin()->cell()->source_index()] ||
            !edge.is_finite())
            continue;
        const Side side{at(edge.vertex0()), at(edge.vertex1())};
        if (side.from != side.to) sides[mine].push_back(side);
    }
    for (std::size_t w = 0; w < which.size(); ++w)
        if (wanted[w]) rings[which[w]] = chained(std::move(sides[w]));
}

// One ring a seed. Large grounds are done in strips, side by side: a cell depends only on seeds close by, so
// each strip looks a good way over its borders.
std::vector<Ring> open_cells(std::span<const Seed> seeds, const Box& box, double pitch_mm) {
    constexpr std::size_t kStrip = 4000;       // seeds, about
    constexpr double kOverBorder_pitches = 5;  // no place of a field is so far from all seeds
    std::vector<Ring> rings(seeds.size());
    const int across = box.size().y > box.size().x ? 1 : 0;
    double longest = 0;
    for (const auto& seed : seeds)
        if (!seed.points_mm.empty())
            longest = std::max(longest, glm::distance(seed.points_mm.front(), seed.points_mm.back()));
    const double over = kOverBorder_pitches * pitch_mm + longest;
    const double width =
        std::max(box.size()[across] / std::ceil(static_cast<double>(seeds.size()) / kStrip), 8 * over);
    const auto strips = static_cast<std::size_t>(std::max(1.0, std::floor(box.size()[across] / width)));
    std::vector<std::vector<std::uint32_t>> which(strips);
    std::vector<std::vector<char>> wanted(strips);
    const double each = box.size()[across] / static_cast<double>(strips);
    const auto strip_at = [&](double x) {
        return static_cast<std::size_t>(
            std::clamp((x - box.low[across]) / each, 0.0, static_cast<double>(strips) - 1));
    };
    for (std::uint32_t s = 0; s < seeds.size(); ++s) {
        if (seeds[s].points_mm.empty()) continue;
        const double x = seeds[s].points_mm[0][across];
        for (std::size_t k = strip_at(x - over); k <= strip_at(x + over); ++k) {
            which[k].push_back(s);
            wanted[k].push_back(k == strip_at(x));
        }
    }
    tbb::parallel_for(std::size_t{0}, strips,
                      [&](std::size_t k) { add_open_cells(seeds, which[k], wanted[k], box, rings); });
    return rings;
}

}  // namespace

Cells share_out(std::span<const Seed> seeds, const Region& region) {
    Cells cells;
    cells.of_seed.resize(seeds.size());
    if (seeds.empty() || region.empty()) return cells;
    const Box box = bounds(region);
    const double pitch = std::sqrt(area_mm2(region) / static_cast<double>(seeds.size()));
    std::vector<Ring> open = open_cells(seeds, box, pitch);
    const EdgeIndex edges(region, 2 * pitch);
    const RegionTiles tiles(region, 4 * pitch);
    std::vector<std::vector<Ring>> orphans(seeds.size());
    tbb::parallel_for(std::size_t{0}, seeds.size(), [&](std::size_t s) {
        if (open[s].size() < 3 || seeds[s].points_mm.empty()) return;
        const auto& points = seeds[s].points_mm;
        const glm::dvec2 heart = points[points.size() / 2];
        double radius = 0;
        for (const auto& p : open[s]) radius = std::max(radius, glm::distance(p, heart));
        if (radius < edges.inside_mm(heart)) {
            cells.of_seed[s] = std::move(open[s]);
            return;
        }
        Ring main;
        double best = -1;
        for (const auto& ring : intersect(region_of(open[s]), tiles.near(heart, radius)).rings) {
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

void move_seeds(const Cells& cells, std::vector<Seed>& seeds, double pull, double least_orphan_mm2) {
    for (std::size_t s = 0; s < seeds.size(); ++s) {
        if (cells.of_seed[s].size() < 3 || seeds[s].points_mm.empty()) continue;
        glm::dvec2 mean{0};
        for (const auto& p : seeds[s].points_mm) mean += p;
        mean /= static_cast<double>(seeds[s].points_mm.size());
        const glm::dvec2 shift = pull * (centroid(cells.of_seed[s]) - mean);
        for (auto& p : seeds[s].points_mm) p += shift;
    }
    for (const auto& ring : cells.orphans)
        if (area_mm2(ring) >= least_orphan_mm2) seeds.push_back({{centroid(ring)}, {1, 0}});
}

Cells settle(const Cells& cells, std::vector<Seed>& seeds, const Region& region, double pull,
             double least_orphan_mm2) {
    move_seeds(cells, seeds, pull, least_orphan_mm2);
    return pull > 0 || seeds.size() > cells.of_seed.size() ? share_out(seeds, region) : cells;
}

void adopt_orphans(Cells& cells, double most_mm2) {
    constexpr double kTouch_mm = 0.002;  // less than a slit is wide: nothing is adopted across a break
    constexpr double kFull = 0.88;       // least share of its hull that the united piece fills
    if (cells.orphans.empty()) return;
    std::vector<Box> boxes;
    for (const auto& cell : cells.of_seed) boxes.push_back(bounds(cell));
    std::vector<Ring> left;
    for (auto& orphan : cells.orphans) {
        const Box box = bounds(orphan);
        const Region wider = grow({{orphan}}, kTouch_mm);
        std::size_t taker = cells.of_seed.size();
        double longest = 0.2 * kTouch_mm * glm::length(box.size());
        for (std::size_t s = 0; s < boxes.size() && area_mm2(orphan) <= most_mm2; ++s) {
            if (boxes[s].low.x > box.high.x + kTouch_mm || boxes[s].high.x < box.low.x - kTouch_mm ||
                boxes[s].low.y > box.high.y + kTouch_mm || boxes[s].high.y < box.low.y - kTouch_mm)
                continue;
            if (const double touch = area_mm2(intersect(wider, {{cells.of_seed[s]}})); touch > longest) {
                longest = touch;
                taker = s;
            }
        }
        if (taker < boxes.size()) {
            const Region both = unite({{cells.of_seed[taker]}}, grow({{orphan}}, 0.5 * kTouch_mm));
            if (both.rings.size() == 1 && area_mm2(both) > kFull * area_mm2(convex_hull(both.rings[0]))) {
                cells.of_seed[taker] = both.rings[0];
                boxes[taker] = bounds(both);
                continue;
            }
        }
        left.push_back(std::move(orphan));
    }
    cells.orphans = std::move(left);
}

}  // namespace rakelight
