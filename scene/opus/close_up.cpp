#include "scene/opus/close_up.h"

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"

namespace rakelight {

namespace {

constexpr std::size_t kFewSides = 6;
constexpr double kReach = 0.9;       // of a piece's side: how far a piece reaches into a gap
constexpr double kLake = 0.3;        // joints: half the width of a gap that is none of them
constexpr double kWorthIt = 1.02;    // of its area, that a piece grows by at least
constexpr double kClose = 2.2;       // of a piece's side: so near a place that is looked at
constexpr double kSamePlace = 0.93;  // of a piece, that it keeps when it is cut anew

bool meet(const Box& a, const Box& b) {
    return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

double longest_mm(const std::vector<Piece>& pieces) {
    double longest = 1;
    for (const Piece& piece : pieces) {
        const glm::dvec2 size = bounds(piece.outline_mm).size();
        longest = std::max({longest, size.x, size.y});
    }
    return longest;
}

class Closing {
  public:
    Closing(std::vector<Piece>& pieces, const Region& ground, const CuttingRules& rules, double most_mm2,
            std::uint64_t seed)
        : pieces_(pieces),
          ground_(ground),
          rules_(rules),
          most_mm2_(most_mm2),
          seed_(seed),
          side_mm_(std::sqrt(rules.nominal_mm2)),
          edge_(ground, 4 * std::sqrt(most_mm2)),
          grid_(longest_mm(pieces) + 2 * kReach * side_mm_) {
        for (std::size_t i = 0; i < pieces.size(); ++i) note(i);
    }

    void run(std::span<const glm::dvec2> places) {
        const double close = kClose * side_mm_;
        PointGrid<glm::dvec2> here(close);
        for (const auto& p : places) here.add(p, p);
        std::vector<std::size_t> looked_at;
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            double nearest = 1e300;
            for (const auto& p : pieces_[i].outline_mm) nearest = std::min(nearest, edge_.inside_mm(p));
            const glm::dvec2 heart = centroid(pieces_[i].outline_mm);
            if (nearest < 2.5 * rules_.joint_mm || !here.all_near(heart, 1, [&](const glm::dvec2& p) {
                    return glm::distance(p, heart) >= close;
                }))
                looked_at.push_back(i);
        }
        std::erase_if(looked_at, [&](std::size_t i) { return !let_grow(i); });
        for (const std::size_t i : looked_at) let_grow(i);
        for (const std::size_t i : looked_at) fill_beside(i);
    }

  private:
    void note(std::size_t i) {
        boxes_.resize(pieces_.size());
        boxes_[i] = bounds(pieces_[i].outline_mm);
        grid_.add((boxes_[i].low + boxes_[i].high) / 2.0, i);
    }

    // The ground round a piece that no other takes, nor the piece itself when `without`.
    Region room(std::size_t i, bool without, double reach) const {
        const Box& box = boxes_[i];
        const Box window{box.low - reach, box.high + reach};
        Region taken;
        grid_.each_near((box.low + box.high) / 2.0, 1, [&](std::size_t j) {
            if ((j != i || without) && meet(boxes_[j], window)) taken.rings.push_back(pieces_[j].outline_mm);
        });
        const Region square{
            {{window.low, {window.high.x, window.low.y}, window.high, {window.low.x, window.high.y}}}};
        // A hair less than the half joint: the piece that is cut from it is drawn in again by as much.
        return subtract(intersect(square, ground_), grow(taken, kDrawnIn * rules_.joint_mm));
    }

    // Sides as a mosaicist counts them: what follows a stone or a border is one, however it bends.
    std::size_t sides_of(const Ring& ring) const {
        std::size_t sides = 0;
        bool before = false;
        const auto follows = [&](std::size_t i) {
            return edge_.inside_mm((ring[i] + ring[(i + 1) % ring.size()]) / 2.0) < rules_.joint_mm;
        };
        if (!ring.empty()) before = follows(ring.size() - 1);
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const bool now = follows(i);
            sides += now && before ? 0 : 1;
            before = now;
        }
        return sides;
    }

    // The largest piece that can be cut in place of this one, when it reaches so far or less far into its
    // room. \return whether there was a gap beside it
    bool let_grow(std::size_t i) {
        const Ring& was = pieces_[i].outline_mm;
        const double before = area_mm2(was);
        const Region cell = grow({{was}}, kDrawnIn * rules_.joint_mm);
        // What is no wider than a joint is one, and ways of two joints, as where three joints meet, would
        // only be spikes.
        const double thin = rules_.joint_mm;
        const Region beside = subtract(room(i, false, 2 * thin), cell);
        if (area_mm2(beside) < thin * thin || grow(beside, -kLake * thin).empty()) return false;
        const Region free = room(i, false, kReach * side_mm_);
        const Region all = unite(grow(grow(free, -thin), thin), cell);
        const std::size_t few = std::max(sides_of(was), kFewSides);
        Ring best;
        double most = kWorthIt * before;
        for (const double reach : {kReach, 0.6, 0.4, 0.25, 0.12}) {
            const Region near = intersect(all, grow(cell, reach * side_mm_));
            for (const Region& part : islands(near)) {
                if (part.rings.size() != 1 || area_mm2(intersect(part, {{was}})) < kSamePlace * before)
                    continue;
                for (Ring& ring : cut_cell(part.rings[0], rules_, pieces_[i].seed)) {
                    const double area = area_mm2(ring);
                    if (area <= most || sides_of(ring) > few || area > std::max(most_mm2_, before) ||
                        area_mm2(intersect({{ring}}, {{was}})) < kSamePlace * before)
                        continue;
                    most = area;
                    best = std::move(ring);
                }
            }
        }
        if (best.empty()) return true;
        pieces_[i].outline_mm = std::move(best);
        boxes_[i] = bounds(pieces_[i].outline_mm);
        return true;
    }

    void fill_beside(std::size_t i) {
        const double thin = kLake * rules_.joint_mm;
        for (const Region& part : islands(grow(grow(room(i, true, kReach * side_mm_), -thin), thin))) {
            if (part.rings.size() != 1) continue;
            for (Ring& ring : cut_cell(part.rings[0], rules_, hash_combine(seed_, i))) {
                Piece filler;
                filler.outline_mm = std::move(ring);
                filler.along = pieces_[i].along;
                filler.seed = hash_combine(seed_, pieces_.size());
                pieces_.push_back(std::move(filler));
                note(pieces_.size() - 1);
            }
        }
    }

    std::vector<Piece>& pieces_;
    const Region& ground_;
    CuttingRules rules_;
    double most_mm2_;
    std::uint64_t seed_;
    double side_mm_;
    EdgeIndex edge_;
    PointGrid<std::size_t> grid_;
    std::vector<Box> boxes_;
};

}  // namespace

void close_up(std::vector<Piece>& pieces, const Region& ground, const CuttingRules& rules, double most_mm2,
              std::uint64_t seed, std::span<const glm::dvec2> places) {
    Closing(pieces, ground, rules, most_mm2, seed).run(places);
}

}  // namespace rakelight
