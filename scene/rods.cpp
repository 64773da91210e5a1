#include "scene/rods.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scene/edge_index.h"
#include "scene/hash.h"

namespace rakelight {

namespace {

constexpr double kOverlap = 0.9;  // rods are strewn a little too close, then moved apart
constexpr double kOutermost =
    1.5;  // of a rod's radius: how far its cell may reach where nothing is in the way

// The nearest points of two rods' middle lines, which do not cross.
std::pair<glm::dvec2, glm::dvec2> nearest(const Rod& a, const Rod& b) {
    const auto onto = [](const Rod& rod, const glm::dvec2& p) {
        return rod.at + rod.along * std::clamp(glm::dot(p - rod.at, rod.along), -rod.half_length_mm,
                                               rod.half_length_mm);
    };
    std::pair<glm::dvec2, glm::dvec2> best;
    double least = 1e300;
    for (const double t : {-1.0, 1.0}) {
        const glm::dvec2 p = a.at + t * a.half_length_mm * a.along, q = b.at + t * b.half_length_mm * b.along;
        for (const auto& pair : {std::pair{p, onto(b, p)}, std::pair{onto(a, q), q}})
            if (const double d = glm::distance(pair.first, pair.second); d < least) {
                least = d;
                best = pair;
            }
    }
    return best;
}

// Rods by the square that their middle lies in.
class Squares {
  public:
    Squares(const Box& box, double square_mm)
        : low_(box.low), square_mm_(square_mm), count_(glm::floor(box.size() / square_mm) + 3.0) {
        buckets_.resize(static_cast<std::size_t>(count_.x) * static_cast<std::size_t>(count_.y));
    }
    void add(const glm::dvec2& p, std::size_t i) { buckets_[index(square(p))].push_back(i); }
    // Calls `visit(i)` for all within `reach` squares until one says false. Tells whether none did.
    template <class Visit>
    bool each(const glm::dvec2& p, int reach, Visit&& visit) const {
        const glm::ivec2 c = square(p);
        for (int y = std::max(c.y - reach, 0); y <= std::min(c.y + reach, count_.y - 1); ++y)
            for (int x = std::max(c.x - reach, 0); x <= std::min(c.x + reach, count_.x - 1); ++x)
                for (const auto i : buckets_[index({x, y})])
                    if (!visit(i)) return false;
        return true;
    }

  private:
    glm::ivec2 square(const glm::dvec2& p) const {
        return glm::clamp(glm::ivec2(glm::floor((p - low_) / square_mm_) + 1.0), glm::ivec2(0), count_ - 1);
    }
    std::size_t index(const glm::ivec2& c) const {
        return static_cast<std::size_t>(c.y) * static_cast<std::size_t>(count_.x) +
               static_cast<std::size_t>(c.x);
    }
    glm::dvec2 low_;
    double square_mm_;
    glm::ivec2 count_;
    std::vector<std::vector<std::size_t>> buckets_;
};

}  // namespace

std::vector<Rod> strewn_rods(const Region& ground, const Strewing& wish, std::uint64_t seed) {
    Chance chance(seed);
    const Box box = bounds(ground);
    const double reach = (1 + wish.uneven) * std::max(wish.length_mm, wish.width_mm);
    const EdgeIndex edge(ground, reach);
    Squares near(box, reach);
    std::vector<Rod> rods;
    const double stones = box.size().x * box.size().y / (wish.length_mm * wish.width_mm);
    for (const bool small : {false, true}) {
        const auto throws = static_cast<int>((small ? 50 : 60) * stones) + 200;
        for (int t = 0; t < throws; ++t) {
            const glm::dvec2 p(chance.within(box.low.x, box.high.x), chance.within(box.low.y, box.high.y));
            const double size = (small ? wish.small : 1.0) * chance.within(1 - wish.uneven, 1 + wish.uneven);
            const double stray = chance.spread();
            const double radius = 0.5 * size * wish.width_mm;
            // Most throws fail on their middle alone.
            if (!near.each(p, 1, [&](std::size_t i) {
                    const Rod& other = rods[i];
                    const glm::dvec2 end = other.half_length_mm * other.along;
                    return distance_mm(p, other.at - end, other.at + end) >=
                           kOverlap * (radius + other.radius_mm);
                }))
                continue;
            const double off_edge = 0.84 * radius;
            if (edge.inside_mm(p) < off_edge) continue;
            const Rod rod{p, wish.direction(p, stray),
                          std::max(0.02, 0.5 * size * (wish.length_mm - wish.width_mm)), radius};
            const glm::dvec2 end = rod.half_length_mm * rod.along;
            if (edge.inside_mm(p + end) < off_edge || edge.inside_mm(p - end) < off_edge) continue;
            if (!near.each(p, 1, [&](std::size_t i) {
                    const auto [a, b] = nearest(rod, rods[i]);
                    return glm::distance(a, b) >= kOverlap * (radius + rods[i].radius_mm);
                }))
                continue;
            near.add(p, rods.size());
            rods.push_back(rod);
        }
    }
    return rods;
}

std::vector<Ring> cells_of(const std::vector<Rod>& rods, const Region& ground, double length_mm) {
    Squares near(bounds(ground), 1.25 * length_mm);
    for (std::size_t i = 0; i < rods.size(); ++i) near.add(rods[i].at, i);
    const EdgeIndex edge(ground, 2 * length_mm);
    std::vector<Ring> cells(rods.size());
    tbb::parallel_for(std::size_t{0}, rods.size(), [&](std::size_t i) {
        const Rod& rod = rods[i];
        const glm::dvec2 u = (rod.half_length_mm + kOutermost * rod.radius_mm) * rod.along;
        const glm::dvec2 v = kOutermost * rod.radius_mm * glm::dvec2(-rod.along.y, rod.along.x);
        Ring ring{rod.at - u - v, rod.at + u - v, rod.at + u + v, rod.at - u + v};
        near.each(rod.at, 2, [&](std::size_t j) {
            if (j == i) return true;
            // Both sides ask for the same line, so it is worked out from the lower number's side.
            const bool first = i < j;
            const double far = 2 * (rod.half_length_mm + 1.5 * kOutermost * rod.radius_mm) +
                               rods[j].half_length_mm + rods[j].radius_mm;
            if (glm::distance(rod.at, rods[j].at) > far) return true;
            const Rod &a = rods[first ? i : j], &b = rods[first ? j : i];
            const auto [p, q] = nearest(a, b);
            const double d = glm::distance(p, q);
            if (d < 1e-6) return true;
            const glm::dvec2 across = (q - p) / d;
            const double line =
                glm::dot(p, across) + std::clamp((d + a.radius_mm - b.radius_mm) / 2, 0.15 * d, 0.85 * d);
            ring = first ? cut_by_line(ring, across, line) : cut_by_line(ring, -across, -line);
            return true;
        });
        if (ring.size() < 3) return;
        if (edge.inside_mm(rod.at) < farthest_mm(ring, rod.at)) {
            Ring best;
            for (auto& part : intersect({{ring}}, ground).rings)
                if (area_mm2(part) > (best.empty() ? 0 : area_mm2(best))) best = std::move(part);
            ring = std::move(best);
        }
        cells[i] = std::move(ring);
    });
    return cells;
}

std::vector<Ring> settle_rods(std::vector<Rod>& rods, const Region& ground, double length_mm, int rounds) {
    auto cells = cells_of(rods, ground, length_mm);
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t i = 0; i < rods.size(); ++i)
            if (cells[i].size() > 2) rods[i].at += 0.6 * (centroid(cells[i]) - rods[i].at);
        cells = cells_of(rods, ground, length_mm);
    }
    return cells;
}

}  // namespace rakelight
