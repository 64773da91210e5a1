// Regulatum: squares on a lattice. Corners are shared and jittered a little, so both families of joints run
// through as a hand lays them; remnants at the edge are given to the neighbour inside.
#include <algorithm>
#include <array>
#include <cmath>

#include "scene/edge_index.h"
#include "scene/opus.h"

namespace rakelight {

namespace {

// Ground of a cell that is lost when a piece is cut from it, over what its joints take anyway: thin tails
// are nipped off and leave notches.
double lost_mm2(const Ring& cell, const CuttingRules& rules) {
    double lost = area_mm2(cell);
    for (const auto& piece : cut_cell(cell, rules, 0)) lost -= area_mm2(piece);
    for (const auto& [a, b] : edges(cell)) lost -= kDrawnIn * rules.joint_mm * glm::distance(a, b);
    return lost;
}

}  // namespace

void lay_regulatum(const Field& field, const Region& ground, const FieldHand& hand, std::uint64_t seed,
                   std::vector<Piece>& pieces) {
    const double turn = glm::radians(field.angle_deg);
    const glm::dvec2 along(std::cos(turn), std::sin(turn));
    const glm::dvec2 across(-along.y, along.x);
    Box box;
    for (const auto& ring : ground.rings)
        for (const auto& p : ring) box.add({glm::dot(p, along), glm::dot(p, across)});
    const int columns = std::max(1, static_cast<int>(std::lround(box.size().x / hand.pitch.along_mm)));
    const int rows = std::max(1, static_cast<int>(std::lround(box.size().y / hand.pitch.across_mm)));
    const glm::dvec2 pitch = box.size() / glm::dvec2(columns, rows);
    const auto corner = [&](int x, int y) {
        Chance chance(
            hash_combine(seed, hash_combine(static_cast<std::uint64_t>(x), static_cast<std::uint64_t>(y))));
        glm::dvec2 q = box.low + pitch * glm::dvec2(x, y);
        // The outermost corners reach past the edge; the others stray a little, never across to the next.
        if (x == 0 || x == columns)
            q.x += x ? 1 : -1;
        else
            q.x += 0.25 * hand.hand * pitch.x * chance.spread();
        if (y == 0 || y == rows)
            q.y += y ? 1 : -1;
        else
            q.y += 0.25 * hand.hand * pitch.y * chance.spread();
        return q.x * along + q.y * across;
    };
    const auto quad = [&](int x, int y) {
        return Ring{corner(x, y), corner(x + 1, y), corner(x + 1, y + 1), corner(x, y + 1)};
    };
    const auto index = [&](int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(x);
    };
    const double whole = pitch.x * pitch.y;
    const EdgeIndex edge(ground, glm::length(pitch));
    std::vector<Region> held(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    std::vector<double> share(held.size(), 0.0);
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            const Ring ring = quad(x, y);
            const double inside = edge.inside_mm(centroid(ring));
            if (inside <= -0.99 * glm::length(pitch)) continue;
            held[index(x, y)] =
                inside > 0.8 * glm::length(pitch) ? Region{{ring}} : intersect({{ring}}, ground);
            share[index(x, y)] = area_mm2(held[index(x, y)]) / whole;
        }
    // Remnants go to the neighbour with which they make the fullest piece. Whole squares are united before
    // they are cut at the edge, so that shared sides vanish exactly.
    std::vector<Region> given(held.size());
    std::vector<char> grown(held.size(), 0);
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            const double mine = share[index(x, y)];
            if (mine <= 0 || mine >= 0.42) continue;
            glm::ivec2 best(-1);
            double most = -1e300;
            for (const auto& by : std::array<glm::ivec2, 4>{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}}) {
                const glm::ivec2 q = glm::ivec2(x, y) + by;
                if (q.x < 0 || q.y < 0 || q.x >= columns || q.y >= rows || share[index(q.x, q.y)] < 0.42)
                    continue;
                const Region both = intersect(unite({{quad(q.x, q.y)}}, {{quad(x, y)}}), ground);
                if (both.rings.size() != 1) continue;
                const double solidity = area_mm2(both) / area_mm2(convex_hull(both.rings[0]));
                if (solidity < 0.8) continue;
                const double full = -lost_mm2(both.rings[0], hand.rules) / whole;
                if (full > most) {
                    most = full;
                    best = q;
                }
            }
            if (best.x < 0) continue;
            Region& owner = given[index(best.x, best.y)];
            if (owner.empty()) owner = {{quad(best.x, best.y)}};
            owner = unite(owner, {{quad(x, y)}});
            grown[index(best.x, best.y)] = 1;
            held[index(x, y)] = {};
        }
    for (std::size_t i = 0; i < held.size(); ++i)
        given[i] = grown[i] ? intersect(given[i], ground) : std::move(held[i]);
    std::vector<Ring> cells;
    for (const auto& region : given)
        for (const auto& ring : region.rings)
            if (area_mm2(ring) > 0) cells.push_back(ring);
    const std::vector<Seed> seeds(cells.size(), Seed{{}, along});
    cut_cells(cells, seeds, hand.rules, hash_combine(seed, 3), pieces);
}

}  // namespace rakelight
