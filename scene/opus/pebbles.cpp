// Pebbles. Set flat, stones of two sizes are strewn with their long axis along the flow (rods.h), settled
// into convex cells, and the pockets between them get fillers. On edge, they stand in close rows along the
// flow like ribs. All take the shape of a worn stone within their cell. Of the ground, 75 to 85 % is stone:
// common practice, no published source.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "scene/flow/flow.h"
#include "scene/geometry/stroke.h"
#include "scene/opus/opus.h"
#include "scene/opus/pebble_outline.h"
#include "scene/opus/rods.h"

namespace rakelight {

namespace {

constexpr double kPacked = 0.80;
constexpr double kStraySd_rad = 0.14;  // of the long axis about the flow

// Direction of the flow anywhere on the ground.
class Drift {
  public:
    Drift(const Field& field, const Region& ground, double across_mm)
        : usual_(std::cos(glm::radians(field.angle_deg)), std::sin(glm::radians(field.angle_deg))) {
        std::vector<Guide> guides;
        for (const auto& stroke : field.guides)
            guides.push_back(
                {{flatten(stroke, 0.1), stroke.closed}, std::numeric_limits<double>::infinity()});
        std::erase_if(guides, [](const Guide& g) { return g.row.line_mm.size() < 2; });
        if (guides.empty()) return;
        lattice_ = lattice_over(bounds(ground), across_mm / 2);
        flow_ = flow_from(guides, lattice_, across_mm);
    }
    glm::dvec2 along(const glm::dvec2& p) const {
        if (flow_.empty()) return usual_;
        const glm::dvec2 at = glm::round((p - lattice_.low_mm) / lattice_.step_mm);
        return flow_[lattice_.index(std::clamp(static_cast<int>(at.x), 0, lattice_.columns - 1),
                                    std::clamp(static_cast<int>(at.y), 0, lattice_.rows - 1))]
            .along;
    }

  private:
    glm::dvec2 usual_;
    Lattice lattice_;
    std::vector<Flow> flow_;
};

// The largest part of a cell once half a joint is taken off.
Ring drawn_in(const Ring& cell, double by_mm) {
    Ring best;
    if (cell.size() < 3) return best;
    for (auto& ring : grow({{cell}}, -by_mm).rings)
        if (area_mm2(ring) > (best.empty() ? 0 : area_mm2(best))) best = std::move(ring);
    return best;
}

// Pockets between the cells that a small stone fits, less half a joint and without their thin tails. The
// ground is gone through square by square, so that the work grows no faster than the ground.
std::vector<Ring> pockets(const Region& ground, const std::vector<Ring>& cells, double square_mm,
                          double joint_mm, double least_mm) {
    const Box box = bounds(ground);
    const glm::ivec2 count(glm::floor(box.size() / square_mm) + 1.0);
    const auto index = [&](const glm::ivec2& c) {
        return static_cast<std::size_t>(c.y) * static_cast<std::size_t>(count.x) +
               static_cast<std::size_t>(c.x);
    };
    std::vector<Region> taken(static_cast<std::size_t>(count.x) * static_cast<std::size_t>(count.y));
    for (const auto& cell : cells) {
        if (cell.size() < 3) continue;
        const Box around = bounds(cell);
        const glm::ivec2 low(glm::floor((around.low - box.low) / square_mm));
        const glm::ivec2 high(glm::floor((around.high - box.low) / square_mm));
        for (int y = std::max(low.y, 0); y <= std::min(high.y, count.y - 1); ++y)
            for (int x = std::max(low.x, 0); x <= std::min(high.x, count.x - 1); ++x)
                taken[index({x, y})].rings.push_back(cell);
    }
    const double draw = (joint_mm + least_mm) / 2;
    std::vector<std::vector<Ring>> found(taken.size());
    tbb::parallel_for(std::size_t{0}, taken.size(), [&](std::size_t i) {
        const auto x = static_cast<double>(i % static_cast<std::size_t>(count.x));
        const auto y = static_cast<double>(i / static_cast<std::size_t>(count.x));
        const glm::dvec2 low = box.low + square_mm * glm::dvec2(x, y), high = low + square_mm;
        const Region square =
            intersect(ground, {{{{low.x, low.y}, {high.x, low.y}, {high.x, high.y}, {low.x, high.y}}}});
        for (auto& ring : grow(grow(subtract(square, taken[i]), -draw), draw - half_joint_mm(joint_mm)).rings)
            if (area_mm2(ring) > 0) found[i].push_back(std::move(ring));
    });
    std::vector<Ring> out;
    for (auto& rings : found)
        for (auto& ring : rings) out.push_back(std::move(ring));
    return out;
}

// Wears the corners off, so far that the ground is packed as asked where the joints leave that choice.
void wear(const Region& ground, double least_mm2, std::vector<Piece>& pieces, std::size_t first) {
    const std::size_t count = pieces.size() - first;
    std::vector<Ring> worn(count);
    const auto wear_every = [&](std::size_t stride, double corner) {
        tbb::parallel_for(std::size_t{0}, (count + stride - 1) / stride, [&](std::size_t k) {
            worn[k * stride] = pebble_outline(pieces[first + k * stride].outline_mm, corner);
        });
    };
    // How far is found on a few thousand stones spread over the field.
    const std::size_t stride = std::max<std::size_t>(1, count / 3000);
    double all = 0, tried = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double area = area_mm2(pieces[first + i].outline_mm);
        all += area;
        if (i % stride == 0) tried += area;
    }
    double low = 0.04, high = 0.1;
    for (int round = 0; round < 7; ++round) {
        const double middle = (low + high) / 2;
        wear_every(stride, middle);
        double left = 0;
        for (std::size_t i = 0; i < count; i += stride) left += area_mm2(worn[i]);
        (left / tried * all > kPacked * area_mm2(ground) ? low : high) = middle;
    }
    wear_every(1, (low + high) / 2);
    for (std::size_t i = 0; i < count; ++i) {
        pieces[first + i].outline_mm = std::move(worn[i]);
        pieces[first + i].form = PieceForm::pebble;
    }
    // What is smaller than grit is left to the bed.
    pieces.erase(std::remove_if(pieces.begin() + static_cast<std::ptrdiff_t>(first), pieces.end(),
                                [&](const Piece& p) {
                                    return p.outline_mm.size() < 3 || area_mm2(p.outline_mm) < least_mm2;
                                }),
                 pieces.end());
}

void strew(const Field& field, const Region& ground, const FieldHand& hand, std::uint64_t seed,
           std::vector<Piece>& pieces) {
    const Drift drift(field, ground, hand.pitch.across_mm);
    Strewing wish;
    wish.length_mm = std::max(hand.pitch.along_mm, hand.pitch.across_mm);
    wish.width_mm = std::min(hand.pitch.along_mm, hand.pitch.across_mm);
    wish.direction = [&](const glm::dvec2& at, double spread) {
        const glm::dvec2 flow = drift.along(at);
        const double c = std::cos(kStraySd_rad * spread), s = std::sin(kStraySd_rad * spread);
        return glm::dvec2(c * flow.x - s * flow.y, s * flow.x + c * flow.y);
    };
    auto rods = strewn_rods(ground, wish, seed);
    const auto cells = settle_rods(rods, ground, wish.length_mm, 3);
    std::uint64_t own = 0;
    const auto add = [&](Ring outline, const glm::dvec2& along) {
        ++own;
        if (outline.size() < 3) return;
        Piece piece;
        piece.outline_mm = std::move(outline);
        piece.along = along;
        piece.seed = hash_combine(hash_combine(seed, 4), own);
        pieces.push_back(std::move(piece));
    };
    for (std::size_t i = 0; i < rods.size(); ++i)
        add(drawn_in(cells[i], half_joint_mm(field.joint_mm)), rods[i].along);
    for (auto& pocket : pockets(ground, cells, 10 * wish.length_mm, field.joint_mm, 0.2 * wish.width_mm)) {
        const glm::dvec2 at = centroid(pocket);
        add(std::move(pocket), drift.along(at));
    }
}

}  // namespace

void lay_pebbles(const OpusTask& task, std::vector<Piece>& pieces) {
    const Field& field = task.field;
    const Region& ground = task.ground;
    const FieldHand& hand = task.hand;
    const std::size_t first = pieces.size();
    if (field.on_edge) {
        FieldHand even = hand;
        even.forks = false;   // stones are not cut
        even.hand = 0.09;     // no two stones are of one length
        even.rules.hand = 0;  // nothing is cut
        even.rules.most_corners = 9;
        even.rules.least_angle_deg = 50;
        StraightRows laid{{}, even.pitch};
        if (field.guides.empty())
            laid = straight_rows(field, ground, even.pitch);
        else
            laid.rows =
                flowing_rows({field, ground, task.outline, task.breaks, even, task.heads, task.seed}, false);
        even.pitch = laid.pitch;
        lay_rows(laid.rows, ground, even, task.heads, task.seed, pieces);
    } else {
        strew(field, ground, hand, task.seed, pieces);
    }
    wear(ground, 0.04 * hand.rules.nominal_mm2, pieces, first);
}

}  // namespace rakelight
