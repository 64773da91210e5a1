// Palladianum: a power diagram (Aurenhammer 1987) of discs of differing size, settled by Lloyd's method
// (1982). Its cells are convex and meet by threes, which is the whole rule of the opus: crazy paving with
// equal joints.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "scene/geometry/clipped_cells.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"
#include "scene/opus/close_up.h"
#include "scene/opus/opus.h"
#include "scene/opus/power_cells.h"
#include "scene/opus/stone_sizes.h"

namespace rakelight {

namespace {

// Darts thrown until the ground is full: a disc stays when it overlaps none before it by much.
std::vector<Disc> thrown(const Region& ground, double mean_mm2, double scale, Rng& rng) {
    const Box box = bounds(ground);
    const double mean_radius = scale * std::sqrt(mean_mm2 / std::numbers::pi);
    std::vector<Disc> discs;
    PointGrid<std::size_t> near(2.2 * mean_radius, box.low);
    const EdgeIndex edge(ground, 2 * mean_radius);
    const auto throws = static_cast<int>(40 * box.size().x * box.size().y / mean_mm2) + 100;
    for (int t = 0; t < throws; ++t) {
        const glm::dvec2 p(rng.within(box.low.x, box.high.x), rng.within(box.low.y, box.high.y));
        // Large ones first, small ones into the gaps, as stones are chosen.
        const double late = static_cast<double>(t) / throws;
        const double radius =
            mean_radius * rng.within(1.25 - 0.6 * late, 1.4 - 0.6 * late) * (0.8 + 0.2 * rng.unit());
        const bool free = near.all_near(p, 1, [&](std::size_t i) {
            return glm::distance(p, discs[i].at) >= 0.86 * (radius + discs[i].radius_mm);
        });
        if (!free || edge.inside_mm(p) < 0.45 * radius) continue;
        near.add(p, discs.size());
        discs.push_back({p, radius, std::sqrt(mean_mm2 / std::numbers::pi)});
    }
    return discs;
}

// What a stone within the field may be.
struct Sound {
    std::size_t most_sides = 6;
    double least_share = 0.45, most_share = 1.9;  // of the ground it should have
};
constexpr Sound kAlike;                  // largest to smallest about five to one
constexpr Sound kOfSizes{8, 0.85, 1.2};  // a large stone among small ones has many neighbours

// Stones with too many sides yield ground to their neighbours, three-sided ones take some; where four stones
// nearly meet, the two that touch draw their joint out and push the other two apart. Returns how bad it was
// before, 0 when there was nothing to mend.
double mend(std::vector<Disc>& discs, const std::vector<Ring>& cells, double mean_radius,
            const EdgeIndex& edge, const Sound& sound) {
    const auto near = grid_of(discs, 2.5 * mean_radius);
    std::vector<double> change(discs.size(), 0.0);
    double faults = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Ring& ring = cells[i];
        if (ring.size() < 3) continue;
        const double wanted_radius = discs[i].wanted_radius_mm;
        const double short_mm = 0.42 * std::min(wanted_radius, mean_radius);
        const bool inner = edge.inside_mm(discs[i].at) > 1.5 * mean_radius;
        if (inner && (ring.size() > sound.most_sides || ring.size() < 4)) {
            faults += 1;
            change[i] += ring.size() > sound.most_sides ? -0.03 : 0.03;
        }
        const double share = area_mm2(ring) / (std::numbers::pi * wanted_radius * wanted_radius);
        if (inner && (share < sound.least_share || share > sound.most_share)) {
            faults += 0.1;
            change[i] += share < 1 ? 0.03 : -0.03;
        }
        for (const auto& [a, b] : edges(ring)) {
            const double length = glm::distance(a, b);
            const glm::dvec2 middle = (a + b) / 2.0;
            if (length >= short_mm || edge.inside_mm(middle) < 0) continue;
            faults += length < 0.5 * short_mm ? 20 : 1;
            std::array<std::pair<double, std::size_t>, 4> meet;  // the four stones that have most claim to it
            meet.fill({1e300, discs.size()});
            near.each_near(middle, 2, [&](std::size_t j) {
                const glm::dvec2 r = discs[j].at - middle;
                std::pair<double, std::size_t> claim{glm::dot(r, r) - discs[j].radius_mm * discs[j].radius_mm,
                                                     j};
                for (auto& m : meet)
                    if (claim < m) std::swap(claim, m);
            });
            const double by = 0.03 * (1 - 0.6 * length / short_mm);
            for (std::size_t m = 0; m < meet.size(); ++m)
                if (meet[m].second < discs.size()) change[meet[m].second] += m < 2 ? by : -by;
        }
    }
    for (std::size_t i = 0; i < discs.size(); ++i)
        discs[i].radius_mm *= 1 + std::clamp(change[i], -0.05, 0.05);
    return faults;
}

/// Takes away the discs of slivers, as long as any others are left.
bool drop_slivers(std::vector<Disc>& discs, const std::vector<Ring>& cells, double mean_mm2) {
    std::vector<Disc> left;
    for (std::size_t i = 0; i < discs.size(); ++i)
        if (!is_sliver(cells[i], mean_mm2)) left.push_back(discs[i]);
    if (left.empty() || left.size() == discs.size()) return false;
    discs = std::move(left);
    return true;
}

// How many discs find room depends on the ground's shape: throw again until they are as many as asked for.
std::vector<Disc> thrown_to_number(const Region& ground, double mean_mm2, Rng& rng) {
    const double wanted = area_mm2(ground) / mean_mm2;
    double scale = 0.85;
    std::vector<Disc> discs;
    for (int round = 0; round < 4; ++round) {
        discs = thrown(ground, mean_mm2, scale, rng);
        const double found = std::max(1.0, static_cast<double>(discs.size()));
        if (std::abs(found - wanted) < 0.04 * wanted) break;
        scale *= std::clamp(std::sqrt(found / wanted), 0.5, 2.0);
    }
    // Ground for one stone only: it takes all of it.
    const double radius = std::sqrt(mean_mm2 / std::numbers::pi);
    if (discs.empty()) discs.push_back({centroid(ground.rings[0]), radius, radius});
    return discs;
}

// Lloyd's rounds: each disc goes most of the way to the middle of its cell.
void settle(std::vector<Disc>& discs, const RegionTiles& ground, double mean_radius, const EdgeIndex& edge) {
    constexpr int kSettling = 6;
    for (int round = 0; round < kSettling; ++round) {
        auto cells = power_cells(discs, mean_radius);
        clip_cells(cells, ground, edge);
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (cells[i].size() > 2) discs[i].at += 0.7 * (centroid(cells[i]) - discs[i].at);
    }
}

// Mends in turn with a little settling, and keeps the soundest discs that were met.
void mend_in_rounds(std::vector<Disc>& discs, double mean_radius, const EdgeIndex& edge, const Sound& sound) {
    constexpr int kMending = 40, kPatience = 8;
    std::vector<Disc> soundest;
    double fewest = 1e300;
    int soundest_round = 0;
    for (int round = 0; round < kMending; ++round) {
        const auto cells = power_cells(discs, mean_radius);
        auto before = discs;
        const double faults = mend(discs, cells, mean_radius, edge, sound);
        if (faults < fewest) {
            fewest = faults;
            soundest_round = round;
            soundest = std::move(before);
        }
        if (faults == 0 || round - soundest_round > kPatience) break;
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (cells[i].size() > 2 && edge.inside_mm(discs[i].at) > 1.5 * mean_radius)
                discs[i].at += 0.15 * (centroid(cells[i]) - discs[i].at);
    }
    discs = std::move(soundest);
}

// The cells within the ground. Slivers that its edge left go to their neighbours; a few times, as they may be
// new ones.
std::vector<Ring> cells_without_slivers(std::vector<Disc>& discs, const RegionTiles& ground, double mean_mm2,
                                        double mean_radius, const EdgeIndex& edge) {
    auto cells = power_cells(discs, mean_radius);
    auto rest = clip_cells(cells, ground, edge);
    for (int times = 0; times < 3 && drop_slivers(discs, cells, mean_mm2); ++times) {
        cells = power_cells(discs, mean_radius);
        rest = clip_cells(cells, ground, edge);
    }
    for (Ring& ring : rest)
        if (!is_sliver(ring, mean_mm2)) cells.push_back(std::move(ring));
    return cells;
}

// The long way of a piece is its grain.
glm::dvec2 grain_of(const Ring& cell) {
    glm::dvec2 along(1, 0);
    double longest = 0;
    for (std::size_t i = 0; i < cell.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (const double d = glm::distance(cell[i], cell[j]); d > longest) {
                longest = d;
                along = (cell[i] - cell[j]) / d;
            }
    return along;
}

}  // namespace

void lay_palladianum(const OpusTask& task, std::vector<Piece>& pieces) {
    const Field& field = task.field;
    const Region& ground = task.ground;
    Rng rng(task.seed);
    const bool of_sizes = field.sizes_mm.y > 0;
    const double mean = (field.piece_length_mm + field.joint_mm) * (field.piece_width_mm + field.joint_mm);
    double mean_radius = std::sqrt(mean / std::numbers::pi);
    double least = mean;
    CuttingRules rules = task.hand.rules;
    std::vector<Disc> discs;
    if (of_sizes) {
        Field small = field;
        small.piece_length_mm = small.piece_width_mm = field.sizes_mm.x;
        rules = hand_of(small).rules;
        rules.least_angle_deg = task.hand.rules.least_angle_deg;
        least = std::pow(field.sizes_mm.x + field.joint_mm, 2);
        mean_radius =
            std::max(mean_radius, 0.75 * (field.sizes_mm.y + field.joint_mm) / std::sqrt(std::numbers::pi));
        discs = discs_of_sizes(ground, field.sizes_mm, field.joint_mm, rng);
    } else {
        discs = thrown_to_number(ground, mean, rng);
    }
    const EdgeIndex edge(ground, 4 * mean_radius);
    const RegionTiles tiles(ground, 4 * mean_radius);
    if (of_sizes)
        settle_to_sizes(discs, tiles, mean_radius, edge);
    else
        settle(discs, tiles, mean_radius, edge);
    mend_in_rounds(discs, mean_radius, edge, of_sizes ? kOfSizes : kAlike);
    const auto cells = cells_without_slivers(discs, tiles, least, mean_radius, edge);
    rules.least_angle_deg = std::max(rules.least_angle_deg, 40.0);
    rules.most_corners = of_sizes ? kOfSizes.most_sides : kAlike.most_sides;
    rules.crowded_edge = 5;  // a stone of seven sides is trimmed to six
    rules.least_edge_mm = std::min(rules.least_edge_mm, 0.1 * std::sqrt(least));
    std::vector<Seed> seeds;
    for (const auto& cell : cells) seeds.push_back({{}, grain_of(cell)});
    std::vector<Piece> cut;
    cut_cells(cells, seeds, rules, hash_combine(task.seed, 3), cut);
    // Along stones and borders the curve counts as one side; a filler may be narrow, but not to break.
    rules.most_corners = 12;
    rules.crowded_edge = 1;
    rules.least_width_mm *= 0.6;
    rules.nominal_mm2 = least;
    close_up(cut, ground, rules, of_sizes ? std::pow(field.sizes_mm.y + field.joint_mm, 2) : 2.2 * mean,
             hash_combine(task.seed, 4));
    for (Piece& piece : cut) pieces.push_back(std::move(piece));
}

}  // namespace rakelight
