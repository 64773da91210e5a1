#include "scene/flow/guide_tree.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

constexpr double kSeenAsOne = 0.1;  // radius over distance; 1/d^4 then errs by some ten times its square

}  // namespace

GuideTree::GuideTree(const std::vector<Guide>& guides, double side_mm) {
    std::vector<glm::dvec2> doubled;
    nodes_.emplace_back();  // 0 stands for none
    std::uint32_t index = 0;
    for (const auto& guide : guides) {
        const std::uint32_t own = index++;
        const auto first = static_cast<std::uint32_t>(sides_.size());
        const auto line = resampled(guide.row, side_mm);
        for (std::size_t i = 1; i < line.size(); ++i) {
            const glm::dvec2 v = line[i] - line[i - 1];
            const double l2 = glm::dot(v, v);
            if (!(l2 > 0)) continue;
            const glm::dvec2 twice = glm::dvec2(v.x * v.x - v.y * v.y, 2 * v.x * v.y) / l2;
            doubled.push_back(guide.across ? -twice : twice);  // a quarter turn, doubled, is half a turn
            sides_.push_back({line[i - 1], line[i], guide.range_mm, guide.hint, own});
        }
        const auto last = static_cast<std::uint32_t>(sides_.size());
        if (last == first) continue;
        roots_.push_back(build(doubled, first, last));
        if (!guide.hint) firm_.push_back(roots_.back());
    }
}

std::uint32_t GuideTree::build(const std::vector<glm::dvec2>& doubled, std::uint32_t first,
                               std::uint32_t last) {
    const auto self = static_cast<std::uint32_t>(nodes_.size());
    nodes_.emplace_back();
    GuideStretch all;
    all.first = first;
    all.last = last;
    all.range_mm = sides_[first].range_mm;
    all.guide = sides_[first].guide;
    all.count = last - first;
    for (std::uint32_t i = first; i < last; ++i) {
        all.at_mm += (sides_[i].a + sides_[i].b) / (2 * all.count);
        all.doubled += doubled[i];
    }
    for (std::uint32_t i = first; i < last; ++i)
        all.radius_mm = std::max(all.radius_mm, glm::distance(all.at_mm, (sides_[i].a + sides_[i].b) / 2.0));
    nodes_[self].all = all;
    if (last - first > 1) {
        const std::uint32_t middle = first + (last - first) / 2;
        const std::uint32_t left = build(doubled, first, middle), right = build(doubled, middle, last);
        nodes_[self].left = left;
        nodes_[self].right = right;
    }
    return self;
}

void GuideTree::see(std::uint32_t node, const glm::dvec2& p, double radius_mm,
                    std::vector<GuideStretch>& out) const {
    const Node& n = nodes_[node];
    const double away = glm::distance(p, n.all.at_mm) - radius_mm;
    if (away - n.all.radius_mm > n.all.range_mm) return;
    if (!n.left || n.all.radius_mm < kSeenAsOne * away) {
        out.push_back(n.all);
        return;
    }
    see(n.left, p, radius_mm, out);
    see(n.right, p, radius_mm, out);
}

void GuideTree::seen_from(const glm::dvec2& p, double radius_mm, std::vector<GuideStretch>& out) const {
    out.clear();
    for (const auto root : roots_) see(root, p, radius_mm, out);
}

void GuideTree::near(std::uint32_t node, const glm::dvec2& p, double& least, std::uint32_t& best) const {
    const Node& n = nodes_[node];
    const double d = glm::distance(p, n.all.at_mm);
    if (d - n.all.radius_mm >= std::min(least, n.all.range_mm)) return;
    if (!n.left) {
        least = d;
        best = n.all.first;
        return;
    }
    const bool left_first =
        glm::distance(p, nodes_[n.left].all.at_mm) <= glm::distance(p, nodes_[n.right].all.at_mm);
    near(left_first ? n.left : n.right, p, least, best);
    near(left_first ? n.right : n.left, p, least, best);
}

std::uint32_t GuideTree::nearest(const glm::dvec2& p) const {
    double least = 1e300;
    auto best = static_cast<std::uint32_t>(sides_.size());
    for (const auto root : firm_) near(root, p, least, best);
    return best;
}

}  // namespace rakelight
