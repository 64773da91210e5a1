#include "scene/mix/position.h"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/segment.hpp>
#include <boost/geometry/index/rtree.hpp>

#include "scene/geometry/stroke.h"

namespace rakelight {

namespace {

constexpr double kFlatness_mm = 0.05;

namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Segment = bg::model::segment<Point>;
using Entry = std::pair<Segment, std::size_t>;

// A chain of segments that knows which of them is nearest.
class Line {
  public:
    explicit Line(const Stroke& stroke) : chain_(flatten(stroke, kFlatness_mm)), closed_(stroke.closed) {
        if (closed_) chain_.push_back(chain_.front());
        std::vector<Entry> entries;
        lengths_.push_back(0);
        for (std::size_t i = 0; i + 1 < chain_.size(); ++i) {
            const glm::dvec2 a = chain_[i], b = chain_[i + 1];
            entries.emplace_back(Segment({a.x, a.y}, {b.x, b.y}), i);
            lengths_.push_back(lengths_.back() + glm::distance(a, b));
        }
        tree_ = Tree(entries);
    }

    struct Nearest {
        double along = 0;   // share of the length
        double across = 0;  // signed
    };

    Nearest nearest(const glm::dvec2& p) const {
        std::vector<Entry> found;
        tree_.query(bg::index::nearest(Point(p.x, p.y), 1), std::back_inserter(found));
        const std::size_t i = found.front().second;
        const glm::dvec2 a = chain_[i], ab = chain_[i + 1] - a;
        const double t = std::clamp(glm::dot(p - a, ab) / glm::dot(ab, ab), 0.0, 1.0);
        const glm::dvec2 off = p - (a + t * ab);
        glm::dvec2 way = glm::normalize(ab);
        if (t == 0) way += direction_before(i);
        if (t == 1) way += direction_after(i);
        const double side = way.x * off.y - way.y * off.x;
        Nearest n;
        n.along = (lengths_[i] + t * glm::length(ab)) / lengths_.back();
        n.across = side < 0 ? -glm::length(off) : glm::length(off);
        return n;
    }

  private:
    using Tree = bg::index::rtree<Entry, bg::index::quadratic<16>>;

    glm::dvec2 direction(std::size_t i) const { return glm::normalize(chain_[i + 1] - chain_[i]); }
    glm::dvec2 direction_before(std::size_t i) const {
        if (i > 0) return direction(i - 1);
        return closed_ ? direction(chain_.size() - 2) : glm::dvec2(0);
    }
    glm::dvec2 direction_after(std::size_t i) const {
        if (i + 2 < chain_.size()) return direction(i + 1);
        return closed_ ? direction(0) : glm::dvec2(0);
    }

    std::vector<glm::dvec2> chain_;
    std::vector<double> lengths_;  // from the start to each point
    bool closed_ = false;
    Tree tree_;
};

}  // namespace

std::vector<double> mix_positions(const MixShift& shift, std::span<const glm::dvec2> points_mm) {
    std::vector<double> positions;
    if (points_mm.empty()) return positions;
    if (shift.by == MixShift::By::towards) {
        const double turn = glm::radians(shift.direction_deg);
        const glm::dvec2 way(std::cos(turn), std::sin(turn));
        for (const auto& p : points_mm) positions.push_back(glm::dot(p, way));
        const auto [low, high] = std::minmax_element(positions.begin(), positions.end());
        const double from = *low, extent = std::max(*high - from, 1e-9);
        for (double& position : positions) position = (position - from) / extent;
        return positions;
    }
    const Line line(shift.line);
    const std::vector<Line> more(shift.more_lines.begin(), shift.more_lines.end());
    for (const auto& p : points_mm) {
        const Line::Nearest n = line.nearest(p);
        double away = std::abs(n.across);
        for (const Line& other : more) away = std::min(away, std::abs(other.nearest(p).across));
        positions.push_back(shift.by == MixShift::By::along    ? n.along
                            : shift.by == MixShift::By::across ? n.across
                                                               : away);
    }
    return positions;
}

}  // namespace rakelight
