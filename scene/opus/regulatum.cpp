// Regulatum: squares on a lattice. Corners are shared and jittered a little, so both families of joints run
// through as a hand lays them; remnants at the edge are given to the neighbour inside.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "scene/geometry/edge_index.h"
#include "scene/opus/opus.h"

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

// The squares: columns along the rows, rows across, in the field's turned axes.
struct Squares {
    glm::dvec2 along, across;
    Box box;  // of the ground, turned
    int columns, rows;
    glm::dvec2 pitch;
    double hand;
    std::uint64_t seed;

    Squares(const Field& field, const Region& ground, const FieldHand& rules, std::uint64_t own)
        : hand(rules.hand), seed(own) {
        const double turn = glm::radians(field.angle_deg);
        along = {std::cos(turn), std::sin(turn)};
        across = {-along.y, along.x};
        for (const auto& ring : ground.rings)
            for (const auto& p : ring) box.add({glm::dot(p, along), glm::dot(p, across)});
        columns = std::max(1, static_cast<int>(std::lround(box.size().x / rules.pitch.along_mm)));
        rows = std::max(1, static_cast<int>(std::lround(box.size().y / rules.pitch.across_mm)));
        pitch = box.size() / glm::dvec2(columns, rows);
    }
    glm::dvec2 corner(int x, int y) const {
        Rng rng(
            hash_combine(seed, hash_combine(static_cast<std::uint64_t>(x), static_cast<std::uint64_t>(y))));
        glm::dvec2 q = box.low + pitch * glm::dvec2(x, y);
        // The outermost corners reach past the edge; the others stray a little, never across to the next.
        if (x == 0 || x == columns)
            q.x += x ? 1 : -1;
        else
            q.x += 0.25 * hand * pitch.x * rng.spread();
        if (y == 0 || y == rows)
            q.y += y ? 1 : -1;
        else
            q.y += 0.25 * hand * pitch.y * rng.spread();
        return q.x * along + q.y * across;
    }
    Ring quad(const glm::ivec2& c) const {
        return {corner(c.x, c.y), corner(c.x + 1, c.y), corner(c.x + 1, c.y + 1), corner(c.x, c.y + 1)};
    }
    double whole_mm2() const { return pitch.x * pitch.y; }
    bool holds(const glm::ivec2& c) const { return c.x >= 0 && c.y >= 0 && c.x < columns && c.y < rows; }
    std::size_t count() const { return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows); }
    std::size_t index(const glm::ivec2& c) const {
        return static_cast<std::size_t>(c.y) * static_cast<std::size_t>(columns) +
               static_cast<std::size_t>(c.x);
    }
    glm::ivec2 at(std::size_t i) const {
        return {static_cast<int>(i % static_cast<std::size_t>(columns)),
                static_cast<int>(i / static_cast<std::size_t>(columns))};
    }
};

constexpr double kRemnant = 0.42;  // of a whole square: less goes to a neighbour

// The part of each square that lies on the ground.
std::vector<Region> on_ground(const Squares& squares, const Region& ground) {
    const double across = glm::length(squares.pitch);
    const EdgeIndex edge(ground, across);
    std::vector<Region> held(squares.count());
    for (std::size_t i = 0; i < held.size(); ++i) {
        const Ring ring = squares.quad(squares.at(i));
        const double inside = edge.inside_mm(centroid(ring));
        if (inside <= -0.99 * across) continue;
        held[i] = inside > 0.8 * across ? Region{{ring}} : intersect({{ring}}, ground);
    }
    return held;
}

// The neighbour with which a remnant makes the fullest piece, or none.
std::optional<glm::ivec2> taker_of(const glm::ivec2& remnant, const Squares& squares,
                                   const std::vector<double>& share, const Region& ground,
                                   const CuttingRules& rules) {
    std::optional<glm::ivec2> best;
    double most = -1e300;
    for (const auto& by : std::array<glm::ivec2, 4>{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}}) {
        const glm::ivec2 q = remnant + by;
        if (!squares.holds(q) || share[squares.index(q)] < kRemnant) continue;
        const Region both = intersect(unite({{squares.quad(q)}}, {{squares.quad(remnant)}}), ground);
        if (both.rings.size() != 1) continue;
        const double solidity = area_mm2(both) / area_mm2(convex_hull(both.rings[0]));
        if (solidity < 0.8) continue;
        const double full = -lost_mm2(both.rings[0], rules) / squares.whole_mm2();
        if (full > most) {
            most = full;
            best = q;
        }
    }
    return best;
}

// Remnants go to neighbours. Whole squares are united before they are cut at the edge, so that shared sides
// vanish exactly.
void give_remnants(std::vector<Region>& held, const Squares& squares, const Region& ground,
                   const CuttingRules& rules) {
    std::vector<double> share;
    for (const auto& region : held) share.push_back(area_mm2(region) / squares.whole_mm2());
    std::vector<Region> grown(held.size());
    for (std::size_t i = 0; i < held.size(); ++i) {
        if (share[i] <= 0 || share[i] >= kRemnant) continue;
        const glm::ivec2 here = squares.at(i);
        const auto taker = taker_of(here, squares, share, ground, rules);
        if (!taker) continue;
        Region& owner = grown[squares.index(*taker)];
        if (owner.empty()) owner = {{squares.quad(*taker)}};
        owner = unite(owner, {{squares.quad(here)}});
        held[i] = {};
    }
    for (std::size_t i = 0; i < held.size(); ++i)
        if (!grown[i].empty()) held[i] = intersect(grown[i], ground);
}

}  // namespace

void lay_regulatum(const OpusTask& task, std::vector<Piece>& pieces) {
    const Region& ground = task.ground;
    const FieldHand& hand = task.hand;
    const Squares squares(task.field, ground, hand, task.seed);
    auto held = on_ground(squares, ground);
    give_remnants(held, squares, ground, hand.rules);
    std::vector<Ring> cells;
    for (const auto& region : held)
        for (const auto& ring : region.rings)
            if (area_mm2(ring) > 0) cells.push_back(ring);
    const std::vector<Seed> seeds(cells.size(), Seed{{}, squares.along});
    cut_cells(cells, seeds, hand.rules, hash_combine(task.seed, 3), pieces);
}

}  // namespace rakelight
