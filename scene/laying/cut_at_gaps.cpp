#include "scene/laying/cut_at_gaps.h"

#include <algorithm>
#include <numeric>

#include "materials/maths/hash.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/cutting.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr double kRemnant = 0.5;   // of a whole cell: less is given away, as at the end of a row
constexpr double kSliver = 0.15;   // of a whole cell: so little is always taken
constexpr double kInRow = 0.2;     // share of its hull that the place in its row is worth to a taker
constexpr double kWedged = 0.8;    // of the joint: half of what a wedge-shaped joint is wider
constexpr double kSawn_deg = 20;   // a saw leaves sharper corners than nippers do
constexpr double kOverlap = 0.03;  // of the joint, so that cells of neighbours surely touch
constexpr double kFar_mm = 1e5;
constexpr double kSlit_mm = 0.02;  // parts ground where panels butt
constexpr double kSame_mm = 1e-3;

Region upright(double left, double right, const Box& over) {
    return {{{{left, over.low.y - 1},
              {right, over.low.y - 1},
              {right, over.high.y + 1},
              {left, over.high.y + 1}}}};
}

// The region and what is narrower than twice so much within or between its parts (a morphological closing).
Region closed_up(const Region& region, double by_mm) {
    return grow(grow(region, by_mm), -by_mm);
}

// How large a cell may grow, in whole cells, and what share of its hull it has to fill.
struct Taking {
    double most, full;
};
constexpr Taking kUsual{1.55, 0.8};
constexpr Taking kAtWorst{2.6, 0.7};  // where the remnant could not be held, and would be a hole

// A piece, or the part of it that is on one panel, with its half of the joints round it.
struct Cell {
    Piece piece;
    std::size_t span = 0;
    Ring ring;          // reaches over its panel's cuts by what drawing in takes off
    bool cut = false;   // else the piece stays as it is
    bool gone = false;  // given to a neighbour
};

class Cuts {
  public:
    Cuts(const Panel& panel, const CuttingRules& rules)
        : spans_(panel_spans(panel)), rules_(rules), over_mm_(kDrawnIn * rules.joint_mm) {
        rules_.least_angle_deg = std::min(rules.least_angle_deg, kSawn_deg);
    }

    void take(Piece& piece) {
        const Box box = bounds(piece.outline_mm);
        for (std::size_t s = 0; s < spans_.size(); ++s)
            if (box.low.x > left_of(s) + 2 * over_mm_ && box.high.x < right_of(s) - 2 * over_mm_) {
                cells_.push_back({std::move(piece), s, {}, false, false});
                return;
            }
        const Region cell = grow({{piece.outline_mm}}, half_mm());
        for (std::size_t s = 0; s < spans_.size(); ++s)
            for (const Ring& ring : intersect(cell, upright(left_of(s), right_of(s), bounds(cell))).rings)
                cells_.push_back({piece, s, ring, true, false});
    }

    // The smallest first, so that what is given on is given whole.
    void give_remnants_away(double whole_mm2) {
        std::vector<std::size_t> order(cells_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::erase_if(order, [&](std::size_t i) {
            return !cells_[i].cut || area_mm2(cells_[i].ring) >= kRemnant * whole_mm2;
        });
        std::ranges::stable_sort(order, {}, [&](std::size_t i) { return area_mm2(cells_[i].ring); });
        for (const std::size_t i : order)
            if (area_mm2(cells_[i].ring) < kRemnant * whole_mm2 && !give_away(cells_[i], kUsual, whole_mm2) &&
                cut_cell(cells_[i].ring, rules_, 0).empty())
                give_away(cells_[i], kAtWorst, whole_mm2);
    }

    // Draws the cells in and hands back the pieces, in their order.
    void finish(std::vector<Piece>& pieces) {
        for (Cell& cell : cells_) {
            if (cell.gone) continue;
            if (!cell.cut) {
                pieces.push_back(std::move(cell.piece));
                continue;
            }
            const std::uint64_t seed = hash_combine(cell.piece.seed, cell.span + 1);
            for (Ring& ring : cut_cell(cell.ring, rules_, hash_combine(seed, 1))) {
                flush(ring, cell.span);
                if (ring.size() < 3 || !star_centre(ring)) continue;
                cell.piece.outline_mm = std::move(ring);
                cell.piece.seed = seed;
                pieces.push_back(cell.piece);
            }
        }
    }

    // As drawn, without its joints: cut and no more.
    void finish_drawn(std::vector<Piece>& pieces) {
        for (Cell& cell : cells_) {
            if (!cell.cut) {
                pieces.push_back(std::move(cell.piece));
                continue;
            }
            const PanelSpan& span = spans_[cell.span];
            const Region on = intersect({{cell.piece.outline_mm}},
                                        upright(span.left_mm, span.right_mm, bounds(cell.piece.outline_mm)));
            for (Ring ring : on.rings) {
                if (4 * area_mm2(ring) / perimeter_mm(ring) < rules_.least_width_mm) continue;
                flush(ring, cell.span);
                Piece piece = cell.piece;
                piece.outline_mm = std::move(ring);
                if (star_centre(piece.outline_mm)) pieces.push_back(std::move(piece));
            }
        }
    }

  private:
    double half_mm() const { return (0.5 + kOverlap) * rules_.joint_mm; }
    double left_of(std::size_t s) const { return s == 0 ? -kFar_mm : spans_[s].left_mm - over_mm_; }
    double right_of(std::size_t s) const {
        return s + 1 == spans_.size() ? kFar_mm : spans_[s].right_mm + over_mm_;
    }

    // Whether there is a cell to take it.
    bool give_away(Cell& remnant, const Taking& limits, double whole_mm2) {
        const double area = area_mm2(remnant.ring);
        const double most = limits.most * whole_mm2 + (area < kSliver * whole_mm2 ? area : 0);
        const Box box = bounds(remnant.ring);
        const glm::dvec2 heart = centroid(remnant.ring);
        Cell* taker = nullptr;
        double fullest = 0;
        Ring grown;
        for (Cell& other : cells_) {
            if (&other == &remnant || other.span != remnant.span || other.gone) continue;
            const Box by = bounds(other.cut ? other.ring : other.piece.outline_mm);
            if (glm::any(glm::greaterThan(box.low, by.high + rules_.joint_mm)) ||
                glm::any(glm::greaterThan(by.low, box.high + rules_.joint_mm)))
                continue;
            const Region cell =
                other.cut ? Region{{other.ring}} : grow({{other.piece.outline_mm}}, half_mm());
            const Region both = closed_up(unite({{remnant.ring}}, cell), kWedged * rules_.joint_mm);
            if (both.rings.size() != 1 || area_mm2(both) > most) continue;
            double full = area_mm2(both) / area_mm2(convex_hull(both.rings[0]));
            if (full < limits.full) continue;
            // The one before it in its row first.
            const glm::dvec2 from = centroid(other.piece.outline_mm) - heart;
            full += kInRow * std::abs(glm::dot(glm::normalize(from), remnant.piece.along));
            if (full <= fullest) continue;
            fullest = full;
            taker = &other;
            grown = both.rings[0];
        }
        if (!taker) return false;
        taker->ring = std::move(grown);
        taker->cut = true;
        remnant.gone = true;
        return true;
    }

    // Ground flush with the cut.
    void flush(Ring& ring, std::size_t s) const {
        if (s > 0)
            for (auto& p : ring) p.x = std::max(p.x, spans_[s].left_mm);
        if (s + 1 < spans_.size())
            for (auto& p : ring) p.x = std::min(p.x, spans_[s].right_mm);
        const auto twice = [](const glm::dvec2& a, const glm::dvec2& b) {
            return glm::distance(a, b) < kSame_mm;
        };
        ring.erase(std::unique(ring.begin(), ring.end(), twice), ring.end());
        while (ring.size() > 3 && twice(ring.front(), ring.back())) ring.pop_back();
    }

    std::vector<PanelSpan> spans_;
    CuttingRules rules_;
    double over_mm_;
    std::vector<Cell> cells_;
};

}  // namespace

Region off_gaps(const Region& ground, const Panel& panel, double joint_mm) {
    if (!panel.divided || ground.empty()) return ground;
    const std::vector<PanelSpan> spans = panel_spans(panel);
    const Box over = bounds(ground);
    Region left = ground;
    for (std::size_t s = 0; s + 1 < spans.size(); ++s) {
        const double middle = (spans[s].right_mm + spans[s + 1].left_mm) / 2;
        const double half = std::max(behind_gap_mm(panel) / 2 - kDrawnIn * joint_mm, kSlit_mm / 2);
        left = subtract(left, upright(middle - half, middle + half, over));
    }
    return left;
}

void cut_at_gaps(const Field& field, const Panel& panel, const CuttingRules& rules,
                 std::vector<Piece>& pieces) {
    if (!panel.divided) return;
    Cuts cuts(panel, rules);
    for (Piece& piece : pieces) cuts.take(piece);
    pieces.clear();
    if (rule_of(field.opus).drawn) {
        cuts.finish_drawn(pieces);
        return;
    }
    cuts.give_remnants_away((field.piece_length_mm + field.joint_mm) *
                            (field.piece_width_mm + field.joint_mm));
    cuts.finish(pieces);
}

}  // namespace rakelight
