// Classicum: straight rows within the halo, their end pieces cut so that they lie square against it. Each row
// is a strip of the ground; where a strip is too thin for a piece its ground goes to the row beside it; heads
// are set by the mean length of the strip, so that a slanting end makes no remnant; and what is still less
// than a third of a piece joins its neighbour.
#include <algorithm>
#include <cmath>

#include "scene/opus/opus.h"

namespace rakelight {

namespace {

constexpr double kThin = 0.5;     // of a row: narrower ground goes to the row beside it
constexpr double kRemnant = 0.5;  // of a whole cell; a third of a piece once its joints are off
constexpr double kTouch_mm = 2e-3;

Region turned(const Region& region, double c, double s) {
    Region out = region;
    for (auto& ring : out.rings)
        for (auto& p : ring) p = {c * p.x - s * p.y, s * p.x + c * p.y};
    return out;
}

Region slab(double left, double bottom, double right, double top) {
    return {{{{left, bottom}, {right, bottom}, {right, top}, {left, top}}}};
}

// Length of a region's border along the line y = `y`.
double contact_mm(const Ring& ring, double y) {
    double sum = 0;
    for (const auto& [a, b] : edges(ring))
        if (std::abs(a.y - y) < kTouch_mm && std::abs(b.y - y) < kTouch_mm) sum += std::abs(a.x - b.x);
    return sum;
}

struct Strip {
    double low;
    double high;
    Region ground;
    std::vector<double> heads;  // where the ground steps, and a head joint must hide it
};

std::vector<Strip> strips_of(const Region& ground, const Box& box, int count) {
    std::vector<Strip> strips;
    const double pitch = box.size().y / count;
    for (int k = 0; k < count; ++k) {
        Strip strip{box.low.y + k * pitch, box.low.y + (k + 1) * pitch, {}, {}};
        // Lines on the clipper's own lattice, so that neighbours share them to the bit.
        strip.low = std::round(strip.low * 1e3) / 1e3 - (k == 0 ? 1 : 0);
        strip.high = std::round(strip.high * 1e3) / 1e3 + (k + 1 == count ? 1 : 0);
        strip.ground = intersect(ground, slab(box.low.x - 1, strip.low, box.high.x + 1, strip.high));
        strips.push_back(std::move(strip));
    }
    return strips;
}

// The ends of a sliver where it is cut off square and not drawn out to a tip.
std::vector<double> blunt_ends(const Ring& thin, double pitch) {
    const Box box = bounds(thin);
    std::vector<double> ends;
    for (const double x : {box.low.x, box.high.x}) {
        Box near;
        for (const auto& p : thin)
            if (std::abs(p.x - x) < 0.12 * pitch) near.add(p);
        if (near.size().y > 0.25 * pitch) ends.push_back(std::round(x * 1e3) / 1e3);
    }
    return ends;
}

// Ground that is no more than a sliver of its strip goes to the strip that it lies along.
void give_slivers(std::vector<Strip>& strips, double pitch) {
    const double radius = kThin / 2 * pitch;
    std::vector<Region> given(strips.size());
    for (std::size_t k = 0; k < strips.size(); ++k) {
        Strip& strip = strips[k];
        const Region wide = intersect(grow(grow(strip.ground, -radius), radius + 1e-3), strip.ground);
        for (const auto& thin : subtract(strip.ground, wide).rings) {
            if (area_mm2(thin) < 0.02 * pitch * pitch) continue;
            const double below = k > 0 ? contact_mm(thin, strip.low) : 0;
            const double above = k + 1 < strips.size() ? contact_mm(thin, strip.high) : 0;
            const double most = std::max(below, above);
            if (most < 0.3 * pitch || std::min(below, above) > 0.3 * most) continue;
            const std::size_t to = above > below ? k + 1 : k - 1;
            given[to] = unite(given[to], {{thin}});
            for (const double x : blunt_ends(thin, pitch)) strips[to].heads.push_back(x);
        }
    }
    Region moved;
    for (const auto& part : given) moved = unite(moved, part);
    for (std::size_t k = 0; k < strips.size(); ++k)
        strips[k].ground = unite(subtract(strips[k].ground, moved), given[k]);
}

// Where the strip begins and ends, as a mean over its height.
std::pair<double, double> mean_ends(const Ring& ring, const Strip& strip) {
    constexpr int kLines = 12;
    double first = 0, last = 0;
    int met = 0;
    const Box box = bounds(ring);
    const double low = std::max(strip.low, box.low.y), high = std::min(strip.high, box.high.y);
    for (int l = 0; l < kLines; ++l) {
        const double y = low + (high - low) * (l + 0.5) / kLines;
        double left = 1e300, right = -1e300;
        for (const auto& [a, b] : edges(ring)) {
            if ((a.y < y) == (b.y < y)) continue;
            const double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
            left = std::min(left, x);
            right = std::max(right, x);
        }
        if (left > right) continue;
        first += left;
        last += right;
        ++met;
    }
    return met ? std::pair{first / met, last / met} : std::pair{box.low.x, box.high.x};
}

// A strip's island without holes: one that rings a hole is parted there.
void part_at_holes(const Region& island, std::vector<Ring>& out) {
    if (island.rings.size() == 1) {
        out.push_back(island.rings[0]);
        return;
    }
    const double x = std::round(centroid(island.rings[1]).x * 1e3) / 1e3;
    const Box box = bounds(island);
    for (const auto& half : {slab(box.low.x - 1, box.low.y - 1, x, box.high.y + 1),
                             slab(x, box.low.y - 1, box.high.x + 1, box.high.y + 1)})
        for (const auto& part : islands(intersect(island, half))) part_at_holes(part, out);
}

// Moves the nearest head to every place that must have one, and takes out others that are then too near.
void move_heads(std::vector<double>& cuts, const std::vector<double>& wanted, const Box& box, double pitch) {
    for (const double x : wanted) {
        if (x < box.low.x + 0.3 * pitch || x > box.high.x - 0.3 * pitch) continue;
        std::erase_if(cuts, [&](double cut) { return std::abs(cut - x) < 0.5 * pitch; });
        cuts.push_back(x);
    }
    std::sort(cuts.begin(), cuts.end());
    // Where that leaves a piece too long, it is halved.
    std::vector<double> more;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
        if (cuts[i + 1] - cuts[i] > 1.5 * pitch)
            more.push_back(std::round((cuts[i] + cuts[i + 1]) * 500) / 1e3);
    cuts.insert(cuts.end(), more.begin(), more.end());
    std::sort(cuts.begin(), cuts.end());
}

// The stretches of ground along a strip, cut at the row's heads.
void cut_strip(const Strip& strip, const FieldHand& hand, HeadJoints& heads, double c, double s, Rng& rng,
               std::vector<Ring>& cells) {
    const double y = (strip.low + strip.high) / 2;
    std::vector<Ring> stretches;
    for (const auto& island : islands(strip.ground)) part_at_holes(island, stretches);
    for (const auto& ring : stretches) {
        const auto [first, last] = mean_ends(ring, strip);
        std::vector<double> cuts;
        if (last - first > 1.3 * hand.pitch.along_mm) {
            const auto on_panel = [&](double x) { return glm::dvec2(c * x + s * y, c * y - s * x); };
            const auto seeds =
                cut_row({{on_panel(first), on_panel(last)}, false}, hand.pitch, hand.hand, heads, rng);
            for (std::size_t i = 0; i + 1 < seeds.size(); ++i) {
                const glm::dvec2 head = (seeds[i].points_mm.back() + seeds[i + 1].points_mm.front()) / 2.0;
                cuts.push_back(std::round((c * head.x - s * head.y) * 1e3) / 1e3);
            }
        }
        const Box box = bounds(ring);
        move_heads(cuts, strip.heads, box, hand.pitch.along_mm);
        double left = box.low.x - 1;
        cuts.push_back(box.high.x + 1);
        for (const double right : cuts) {
            for (auto& part : intersect({{ring}}, slab(left, box.low.y - 1, right, box.high.y + 1)).rings)
                if (area_mm2(part) > 1e-3) cells.push_back(std::move(part));
            left = right;
        }
    }
}

// Joins every remnant to the neighbour with which it makes the fullest piece.
// `strip_of` tells the strip of each cell, in rising order.
void join_remnants(std::vector<Ring>& cells, const std::vector<std::size_t>& strip_of, double whole_mm2) {
    std::vector<Box> boxes;
    for (const auto& cell : cells) boxes.push_back(bounds(cell));
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i].empty() || area_mm2(cells[i]) >= kRemnant * whole_mm2) continue;
        std::size_t best = cells.size();
        double fullest = 0;
        Ring joined;
        const auto beside = [&](std::size_t strip) {
            return std::lower_bound(strip_of.begin(), strip_of.end(), strip) - strip_of.begin();
        };
        const auto end = static_cast<std::size_t>(beside(strip_of[i] + 2));
        for (auto j = static_cast<std::size_t>(beside(std::max<std::size_t>(strip_of[i], 1) - 1)); j < end;
             ++j) {
            if (j == i || cells[j].empty()) continue;
            if (glm::any(glm::greaterThan(boxes[i].low, boxes[j].high + kTouch_mm)) ||
                glm::any(glm::greaterThan(boxes[j].low, boxes[i].high + kTouch_mm)))
                continue;
            const Region both = unite({{cells[i]}}, {{cells[j]}});
            if (both.rings.size() != 1 || area_mm2(both) > 1.7 * whole_mm2) continue;
            const double solidity = area_mm2(both) / area_mm2(convex_hull(both.rings[0]));
            if (solidity > fullest) {
                fullest = solidity;
                best = j;
                joined = both.rings[0];
            }
        }
        if (fullest < 0.72) continue;
        cells[best] = std::move(joined);
        boxes[best] = bounds(cells[best]);
        cells[i].clear();
    }
    std::erase_if(cells, [](const Ring& r) { return r.empty(); });
}

}  // namespace

void lay_classicum(const OpusTask& task, std::vector<Piece>& pieces) {
    const Field& field = task.field;
    const Region& ground = task.ground;
    const FieldHand& hand = task.hand;
    const double turn = glm::radians(field.angle_deg);
    const double c = std::cos(turn), s = std::sin(turn);
    const Region level = turned(ground, c, -s);
    const Box box = bounds(level);
    const int count = std::max(1, static_cast<int>(std::lround(box.size().y / hand.pitch.across_mm)));
    FieldHand fitted = hand;
    fitted.pitch.across_mm = box.size().y / count;
    auto strips = strips_of(level, box, count);
    give_slivers(strips, fitted.pitch.across_mm);
    Rng rng(task.seed);
    std::vector<Ring> cells;
    std::vector<std::size_t> strip_of;
    for (std::size_t k = 0; k < strips.size(); ++k) {
        cut_strip(strips[k], fitted, task.heads, c, -s, rng, cells);
        strip_of.resize(cells.size(), k);
    }
    join_remnants(cells, strip_of, fitted.pitch.along_mm * fitted.pitch.across_mm);
    for (auto& cell : cells) cell = turned({{cell}}, c, s).rings[0];
    CuttingRules rules = hand.rules;
    rules.most_corners = 8;
    const std::size_t first = pieces.size();
    const std::vector<Seed> seeds(cells.size(), Seed{{}, glm::dvec2(c, s)});
    cut_cells(cells, seeds, rules, hash_combine(task.seed, 3), pieces);
    // A chip off a hollow cell is no piece: it is left to the joint.
    pieces.erase(
        std::remove_if(pieces.begin() + static_cast<std::ptrdiff_t>(first), pieces.end(),
                       [&](const Piece& p) { return area_mm2(p.outline_mm) < rules.nominal_mm2 / 3; }),
        pieces.end());
}

}  // namespace rakelight
