// Palladianum: a power diagram (Aurenhammer 1987) of discs of differing size, settled by Lloyd's method
// (1982). Its cells are convex and meet by threes, which is the whole rule of the opus: crazy paving with
// equal joints.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "scene/clipped_cells.h"
#include "scene/edge_index.h"
#include "scene/opus.h"

namespace rakelight {

namespace {

struct Disc {
    glm::dvec2 at;
    double radius_mm;
};

// Discs sorted into buckets so that neighbours are found without looking at all.
class Neighbours {
  public:
    Neighbours(const std::vector<Disc>& discs, double size_mm) : size_mm_(size_mm) {
        Box box;
        for (const auto& d : discs) box.add(d.at);
        low_ = box.low;
        columns_ = static_cast<int>(box.size().x / size_mm) + 1;
        rows_ = static_cast<int>(box.size().y / size_mm) + 1;
        buckets_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
        for (std::size_t i = 0; i < discs.size(); ++i) {
            const glm::ivec2 c = cell(discs[i].at);
            buckets_[static_cast<std::size_t>(c.y) * static_cast<std::size_t>(columns_) +
                     static_cast<std::size_t>(c.x)]
                .push_back(i);
        }
    }
    /// Visits bucket by bucket in rings about `p`, the nearest first, as long as `goes_on(mm)` holds of the
    /// least distance of the ring to come.
    template <class Visit, class GoesOn>
    void outwards(const glm::dvec2& p, int reach, GoesOn&& goes_on, Visit&& visit) const {
        const glm::ivec2 c = cell(p);
        for (int ring = 0; ring <= reach && (ring < 2 || goes_on((ring - 1) * size_mm_)); ++ring)
            for (int y = std::max(c.y - ring, 0); y <= std::min(c.y + ring, rows_ - 1); ++y)
                for (int x = std::max(c.x - ring, 0); x <= std::min(c.x + ring, columns_ - 1); ++x) {
                    if (std::max(std::abs(x - c.x), std::abs(y - c.y)) != ring) continue;
                    for (const auto i :
                         buckets_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
                                  static_cast<std::size_t>(x)])
                        visit(i);
                }
    }
    template <class Visit>
    void each(const glm::dvec2& p, int reach, Visit&& visit) const {
        const glm::ivec2 c = cell(p);
        for (int y = std::max(c.y - reach, 0); y <= std::min(c.y + reach, rows_ - 1); ++y)
            for (int x = std::max(c.x - reach, 0); x <= std::min(c.x + reach, columns_ - 1); ++x)
                for (const auto i :
                     buckets_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
                              static_cast<std::size_t>(x)])
                    visit(i);
    }

  private:
    glm::ivec2 cell(const glm::dvec2& p) const { return glm::ivec2(glm::floor((p - low_) / size_mm_)); }
    double size_mm_;
    glm::dvec2 low_{0};
    int columns_ = 0;
    int rows_ = 0;
    std::vector<std::vector<std::size_t>> buckets_;
};

// Darts thrown until the ground is full: a disc stays when it overlaps none before it by much.
std::vector<Disc> thrown(const Region& ground, double mean_mm2, double scale, Chance& chance) {
    const Box box = bounds(ground);
    const double mean_radius = scale * std::sqrt(mean_mm2 / std::numbers::pi);
    std::vector<Disc> discs;
    const double bucket = 2.2 * mean_radius;
    const int columns = static_cast<int>(box.size().x / bucket) + 3;
    const int rows = static_cast<int>(box.size().y / bucket) + 3;
    std::vector<std::vector<std::size_t>> buckets(static_cast<std::size_t>(columns) *
                                                  static_cast<std::size_t>(rows));
    const EdgeIndex edge(ground, 2 * mean_radius);
    const auto throws = static_cast<int>(40 * box.size().x * box.size().y / mean_mm2) + 100;
    for (int t = 0; t < throws; ++t) {
        const glm::dvec2 p(chance.within(box.low.x, box.high.x), chance.within(box.low.y, box.high.y));
        // Large ones first, small ones into the gaps, as stones are chosen.
        const double late = static_cast<double>(t) / throws;
        const double radius =
            mean_radius * chance.within(1.25 - 0.6 * late, 1.4 - 0.6 * late) * (0.8 + 0.2 * chance.unit());
        const glm::ivec2 c(glm::floor((p - box.low) / bucket) + 1.0);
        bool free = true;
        for (int y = c.y - 1; y <= c.y + 1 && free; ++y)
            for (int x = c.x - 1; x <= c.x + 1 && free; ++x) {
                if (x < 0 || y < 0 || x >= columns || y >= rows) continue;
                for (const auto i : buckets[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) +
                                            static_cast<std::size_t>(x)])
                    if (glm::distance(p, discs[i].at) < 0.86 * (radius + discs[i].radius_mm)) {
                        free = false;
                        break;
                    }
            }
        if (!free || edge.inside_mm(p) < 0.45 * radius) continue;
        buckets[static_cast<std::size_t>(c.y) * static_cast<std::size_t>(columns) +
                static_cast<std::size_t>(c.x)]
            .push_back(discs.size());
        discs.push_back({p, radius});
    }
    return discs;
}

std::vector<Ring> power_cells(const std::vector<Disc>& discs, double mean_radius) {
    std::vector<Ring> cells(discs.size());
    const Neighbours near(discs, 2.5 * mean_radius);
    tbb::parallel_for(std::size_t{0}, discs.size(), [&](std::size_t i) {
        const glm::dvec2 p = discs[i].at;
        const double reach = 4 * mean_radius;
        Ring ring{p + glm::dvec2(-reach, -reach), p + glm::dvec2(reach, -reach), p + glm::dvec2(reach, reach),
                  p + glm::dvec2(-reach, reach)};
        double far2 = 2 * reach * reach;  // a line beyond the farthest corner cuts nothing
        // No disc is larger than twice the mean: what lies beyond this cannot reach a corner.
        const auto may_cut = [&](double mm) {
            return mm - 4 * mean_radius * mean_radius / mm < 2 * std::sqrt(far2);
        };
        near.outwards(p, 3, may_cut, [&](std::size_t j) {
            if (j == i || ring.empty()) return;
            const glm::dvec2 r = discs[j].at - p;
            const double along = (glm::dot(r, r) + discs[i].radius_mm * discs[i].radius_mm -
                                  discs[j].radius_mm * discs[j].radius_mm) /
                                 2;
            if (along > 0 && along * along >= far2 * glm::dot(r, r)) return;
            ring = cut_by_line(ring, r, glm::dot(p, r) + along);
            far2 = 0;
            for (const auto& q : ring) far2 = std::max(far2, glm::dot(q - p, q - p));
        });
        cells[i] = std::move(ring);
    });
    return cells;
}

// Stones with too many sides yield ground to their neighbours, three-sided ones take some; where four stones
// nearly meet, the two that touch draw their joint out and push the other two apart. Returns how bad it was
// before, 0 when there was nothing to mend.
double mend(std::vector<Disc>& discs, const std::vector<Ring>& cells, double mean_radius,
            const EdgeIndex& edge) {
    const double short_mm = 0.42 * mean_radius;
    const Neighbours near(discs, 2.5 * mean_radius);
    std::vector<double> change(discs.size(), 0.0);
    double faults = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Ring& ring = cells[i];
        if (ring.size() < 3) continue;
        const bool inner = edge.inside_mm(discs[i].at) > 1.5 * mean_radius;
        if (inner && (ring.size() > 6 || ring.size() < 4)) {
            faults += 1;
            change[i] += ring.size() > 6 ? -0.03 : 0.03;
        }
        // Largest to smallest about five to one.
        const double share = area_mm2(ring) / (std::numbers::pi * mean_radius * mean_radius);
        if (inner && (share < 0.45 || share > 1.9)) {
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
            near.each(middle, 2, [&](std::size_t j) {
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

}  // namespace

void lay_palladianum(const Field& field, const Region& ground, const FieldHand& hand, std::uint64_t seed,
                     std::vector<Piece>& pieces) {
    Chance chance(seed);
    const double mean = (field.piece_length_mm + field.joint_mm) * (field.piece_width_mm + field.joint_mm);
    const double mean_radius = std::sqrt(mean / std::numbers::pi);
    // How many discs find room depends on the ground's shape: throw again until they are as many as asked
    // for.
    const double wanted = area_mm2(ground) / mean;
    double scale = 0.85;
    std::vector<Disc> discs;
    for (int round = 0; round < 4; ++round) {
        discs = thrown(ground, mean, scale, chance);
        const double found = std::max(1.0, static_cast<double>(discs.size()));
        if (std::abs(found - wanted) < 0.04 * wanted) break;
        scale *= std::clamp(std::sqrt(found / wanted), 0.5, 2.0);
    }
    // Ground for one stone only: it takes all of it.
    if (discs.empty()) discs.push_back({centroid(ground.rings[0]), mean_radius});
    const EdgeIndex edge(ground, 4 * mean_radius);
    std::vector<Ring> cells;
    std::vector<Disc> soundest;
    double fewest = 1e300;
    constexpr int kSettling = 6, kMending = 40, kPatience = 8;
    int soundest_round = 0;
    for (int round = 0;; ++round) {
        cells = power_cells(discs, mean_radius);
        bool last = false;
        if (round >= kSettling && round < kSettling + kMending) {
            auto before = discs;
            const double faults = mend(discs, cells, mean_radius, edge);
            if (faults < fewest) {
                fewest = faults;
                soundest_round = round;
                soundest = std::move(before);
            }
            last = faults == 0;
            if (last || round + 1 == kSettling + kMending || round - soundest_round > kPatience) {
                discs = std::move(soundest);
                cells = power_cells(discs, mean_radius);
                last = true;
            }
        }
        if (round >= kSettling && !last) {
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (cells[i].size() > 2 && edge.inside_mm(discs[i].at) > 1.5 * mean_radius)
                    discs[i].at += 0.15 * (centroid(cells[i]) - discs[i].at);
            continue;
        }
        std::vector<Ring> rest = clip_cells(cells, ground, edge);
        if (last) {
            // Slivers that the ground's edge left go to their neighbours; a few times, as they may be new
            // ones.
            for (int times = 0; times < 3 && drop_slivers(discs, cells, mean); ++times) {
                cells = power_cells(discs, mean_radius);
                rest = clip_cells(cells, ground, edge);
            }
            for (Ring& ring : rest)
                if (!is_sliver(ring, mean)) cells.push_back(std::move(ring));
            break;
        }
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (cells[i].size() > 2) discs[i].at += 0.7 * (centroid(cells[i]) - discs[i].at);
    }
    CuttingRules rules = hand.rules;
    rules.least_angle_deg = std::max(rules.least_angle_deg, 40.0);
    rules.most_corners = 6;
    rules.crowded_edge = 5;  // a stone of seven sides is trimmed to six
    rules.least_edge_mm = std::min(rules.least_edge_mm, 0.1 * std::sqrt(mean));
    std::vector<Seed> seeds;
    for (const auto& cell : cells) {  // the long way of a piece is its grain
        glm::dvec2 along(1, 0);
        double longest = 0;
        for (std::size_t i = 0; i < cell.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                if (const double d = glm::distance(cell[i], cell[j]); d > longest) {
                    longest = d;
                    along = (cell[i] - cell[j]) / d;
                }
        seeds.push_back({{}, along});
    }
    cut_cells(cells, seeds, rules, hash_combine(seed, 3), pieces);
}

}  // namespace rakelight
