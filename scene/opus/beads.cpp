// Beads: whole balls, the first strands threaded along the guides, every other one nested against two that
// lie already, the nearest to a guide first; so strands run on beside one another as a hand presses them in.
// An advancing front of circles (after Feng, Han and Owen, "Filling domains with disks: an advancing front
// approach", Int. J. Numer. Meth. Engng 56, 2003).
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>
#include <tuple>
#include <utility>
#include <vector>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"
#include "scene/geometry/stroke.h"
#include "scene/opus/opus.h"

namespace rakelight {

namespace {

constexpr int kCorners = 24;        // of an outline
constexpr double kUneven = 0.03;    // beads made one by one are up to so much smaller than asked
constexpr double kStep = 1.0 / 24;  // of a bead along a strand
constexpr double kHair = 1 + 1e-9;  // apart, of a distance, so that rounding makes no two beads touch

/// A ball with its half of the joint round it.
struct Bead {
    glm::dvec2 at{};
    double radius_mm = 0;
};

/// What touches two balls, on either side of them; none when they lie too far apart.
std::vector<glm::dvec2> nests(const Bead& a, const Bead& b, double radius_mm) {
    const glm::dvec2 way = b.at - a.at;
    const double apart = glm::length(way), from_a = (a.radius_mm + radius_mm) * kHair,
                 from_b = (b.radius_mm + radius_mm) * kHair;
    const double along = (apart * apart + from_a * from_a - from_b * from_b) / (2 * apart);
    const double square = from_a * from_a - along * along;
    if (!(apart > 0) || square < 0) return {};
    const glm::dvec2 foot = a.at + along / apart * way;
    const glm::dvec2 up = std::sqrt(square) / apart * glm::dvec2(-way.y, way.x);
    return {foot + up, foot - up};
}

/// Beads on a ground, as they come to lie.
class Tray {
  public:
    Tray(const OpusTask& task, std::vector<Piece>& pieces)
        : task_(task),
          half_joint_mm_(half_joint_mm(task.field.joint_mm)),
          most_mm_(task.field.piece_width_mm / 2 + half_joint_mm_),
          edge_(task.ground, 4 * most_mm_),
          beads_(2 * most_mm_),
          pieces_(pieces) {
        for (const auto& stroke : task.field.guides) guides_.push_back({flatten(stroke, 0.1), stroke.closed});
        std::erase_if(guides_, [](const Row& guide) { return guide.line_mm.size() < 2; });
        if (guides_.empty())  // along the edge
            for (auto& ring : grow(task.ground, -most_mm_ * kHair).rings) guides_.push_back({ring, true});
        for (const Row& guide : guides_) {
            std::vector<glm::dvec2> line = guide.line_mm;
            if (guide.closed) line.push_back(line.front());
            for (std::size_t i = 1; i < line.size(); ++i) sides_.emplace_back(line[i - 1], line[i]);
        }
    }

    void thread_guides() {
        for (const Row& guide : guides_)
            for (const glm::dvec2& p : resampled(guide, kStep * 2 * most_mm_)) try_at(p);
    }

    /// Nests beads against those that lie until none has room.
    void spread() {
        while (!front_.empty()) {
            const glm::dvec2 at = front_.top().at;
            front_.pop();
            try_at(at);
        }
    }

    /// A bead in each gap that has room for one, and what nests against it: parts that no guide runs through.
    void fill_gaps() {
        const Box box = bounds(task_.ground);
        const double step = most_mm_ / 3;
        for (double y = box.low.y; y < box.high.y; y += step)
            for (double x = box.low.x; x < box.high.x; x += step)
                if (try_at({x, y})) spread();
    }

  private:
    struct Nest {
        double from_guide_mm;
        std::size_t order;
        glm::dvec2 at;
        bool operator<(const Nest& other) const {  // the nearest on top of a heap
            return std::tie(from_guide_mm, order) > std::tie(other.from_guide_mm, other.order);
        }
    };

    double from_guide_mm(const glm::dvec2& p) const {
        double least = std::numeric_limits<double>::infinity();
        for (const auto& [a, b] : sides_) least = std::min(least, distance_mm(p, a, b));
        return least;
    }

    bool try_at(const glm::dvec2& at) {
        const std::uint64_t own = hash_combine(hash_combine(task_.seed, 6), pieces_.size());
        const double radius = task_.field.piece_width_mm / 2 * (1 - kUneven * unit_from_hash(own));
        const Bead bead{at, radius + half_joint_mm_};
        if (edge_.inside_mm(at) < bead.radius_mm) return false;
        const bool free = beads_.all_near(at, 1, [&](const Bead& other) {
            return glm::distance(at, other.at) >= bead.radius_mm + other.radius_mm;
        });
        if (!free) return false;
        add_nests(bead);
        beads_.add(at, bead);
        add_piece(at, radius, own);
        return true;
    }

    // Of a bead with those that lie about it, and with the ground's edge.
    void add_nests(const Bead& bead) {
        const auto add = [&](const glm::dvec2& at) {
            if (edge_.inside_mm(at) >= (1 - kUneven) * most_mm_)
                front_.push({from_guide_mm(at), order_++, at});
        };
        beads_.each_near(bead.at, 2, [&](const Bead& other) {
            for (const glm::dvec2& at : nests(bead, other, most_mm_)) add(at);
        });
        if (edge_.inside_mm(bead.at) > 3 * most_mm_) return;
        const double reach = (bead.radius_mm + most_mm_) * kHair;
        glm::dvec2 before = bead.at + glm::dvec2(reach, 0);
        for (int i = 1; i <= 2 * kCorners; ++i) {
            const double turn = std::numbers::pi * i / kCorners;
            const glm::dvec2 now = bead.at + reach * glm::dvec2(std::cos(turn), std::sin(turn));
            const bool was_in = edge_.inside_mm(before) >= most_mm_, is_in = edge_.inside_mm(now) >= most_mm_;
            if (was_in != is_in) add(is_in ? now : before);
            before = now;
        }
    }

    void add_piece(const glm::dvec2& at, double radius_mm, std::uint64_t seed) {
        Piece piece;
        for (int i = 0; i < kCorners; ++i) {
            const double turn = 2 * std::numbers::pi * i / kCorners;
            piece.outline_mm.push_back(at + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
        }
        piece.seed = seed;
        piece.form = PieceForm::bead;
        pieces_.push_back(std::move(piece));
    }

    const OpusTask& task_;
    double half_joint_mm_;
    double most_mm_;  // radius of the largest bead, its half of the joint with it
    EdgeIndex edge_;
    PointGrid<Bead> beads_;
    std::vector<Row> guides_;
    std::vector<std::pair<glm::dvec2, glm::dvec2>> sides_;
    std::priority_queue<Nest> front_;
    std::size_t order_ = 0;
    std::vector<Piece>& pieces_;
};

}  // namespace

void lay_beads(const OpusTask& task, std::vector<Piece>& pieces) {
    Tray tray(task, pieces);
    tray.thread_guides();
    tray.spread();
    tray.fill_gaps();
}

}  // namespace rakelight
