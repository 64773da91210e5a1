#include "scene/opus/forks.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <optional>

#include "scene/geometry/point_grid.h"
#include "scene/geometry/region.h"

namespace rakelight {

namespace {

constexpr double kSame_mm = 4e-4;  // corners that two cells share, as clipping leaves them
constexpr double kTip = 0.34;      // width of the tip, of a whole piece's
constexpr double kTaper_deg = 22;  // between the two long sides of a wedge
constexpr double kLongest = 1.7;   // pitches
constexpr double kShortest = 0.7;  // pitches
constexpr double kMostOff = 0.3;   // of a wedge, that may lie off the field
constexpr double kCrossing = 1.3;  // joints: nearer ones cross
constexpr double kInLine = 0.2;    // pitches: heads of rows side by side that are nearer stand in line
constexpr double kLeast = 0.45;    // of a whole cell, that a piece keeps when a head is moved

// The corners of `cell` that it shares with `other`, in its own order, when they are one chain.
std::vector<glm::dvec2> shared_chain(const Ring& cell, const Ring& other) {
    const std::size_t n = cell.size();
    std::vector<char> shared(n, 0);
    std::size_t count = 0;
    for (std::size_t i = 0; i < n; ++i)
        for (const auto& p : other)
            if (std::abs(cell[i].x - p.x) < kSame_mm && std::abs(cell[i].y - p.y) < kSame_mm) {
                shared[i] = 1;
                ++count;
                break;
            }
    if (count < 2 || count == n) return {};
    std::size_t first = 0;
    while (!shared[first] || shared[(first + n - 1) % n]) ++first;
    std::vector<glm::dvec2> chain;
    for (std::size_t i = first; shared[i]; i = (i + 1) % n) chain.push_back(cell[i]);
    return chain.size() == count ? chain : std::vector<glm::dvec2>{};
}

// The head of the last cell of a row, and where its tip is to be.
struct Nib {
    std::vector<glm::dvec2> head;  // counter-clockwise, from the left of the way out
    glm::dvec2 tip{0}, out{1, 0}, left{0, 1};
    double blunt_mm = 0;
};

std::optional<Nib> nib_of(const Ring& cell, const Ring& before, const ForkRules& rules) {
    if (cell.size() < 3 || before.size() < 3) return std::nullopt;
    Nib nib;
    nib.head = shared_chain(cell, before);
    if (nib.head.size() < 2) return std::nullopt;
    const glm::dvec2 &left = nib.head.front(), &right = nib.head.back();
    const double width = glm::distance(left, right);
    if (width < 0.5 * rules.width_mm || width > 1.6 * rules.width_mm) return std::nullopt;
    const glm::dvec2 middle = (left + right) / 2.0;
    const glm::dvec2 up = (left - right) / width, square(up.y, -up.x);  // from the head outwards
    glm::dvec2 end = middle;
    double farthest = 0;
    for (const auto& p : cell)
        if (const double d = glm::dot(p - middle, square); d > farthest) {
            farthest = d;
            end = p;
        }
    if (!(farthest > 0.2 * rules.length_mm)) return std::nullopt;
    nib.out = glm::normalize(end - middle);
    if (glm::dot(nib.out, square) < 0.8) return std::nullopt;
    nib.left = {-nib.out.y, nib.out.x};
    nib.blunt_mm = kTip * (rules.width_mm - rules.joint_mm) + rules.joint_mm;
    const double wanted = (width - nib.blunt_mm) / (2 * std::tan(glm::radians(kTaper_deg) / 2));
    nib.tip = middle + nib.out * std::clamp(std::max(wanted, glm::distance(end, middle)),
                                            kShortest * rules.length_mm, kLongest * rules.length_mm);
    return nib;
}

// The wedge, counter-clockwise, its tip to the left or the right of the joint beyond.
Ring wedge_of(const Nib& nib, bool tip_left) {
    const glm::dvec2 aside = nib.blunt_mm * nib.left;
    Ring ring{tip_left ? nib.tip : nib.tip - aside, tip_left ? nib.tip + aside : nib.tip};
    ring.insert(ring.end(), nib.head.begin(), nib.head.end());
    return ring;
}

bool meet(const Box& a, const Box& b) {
    return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

// Gives the ground round a wedge to the cells beside it, each what lies nearest to it.
bool make_room(Cells& cells, const std::vector<Seed>& seeds, const RowEnd& row_end, Ring& wedge,
               std::vector<Box>& boxes, std::vector<char>& done, const std::vector<std::size_t>& close,
               double reach_mm) {
    const std::size_t last = row_end.last;  // the piece before it keeps its ground
    Box near = bounds(wedge);
    for (const auto& p : cells.of_seed[last]) near.add(p);
    const Box touched{near.low - kSame_mm, near.high + kSame_mm};
    near = {near.low - reach_mm, near.high + reach_mm};
    std::vector<std::size_t> which;
    std::vector<Seed> beside;
    std::vector<Ring> ground{cells.of_seed[last]};
    for (const std::size_t s : close) {
        if (s == last || s == row_end.before || done[s] || cells.of_seed[s].size() < 3 ||
            seeds[s].points_mm.empty() || !meet(boxes[s], near))
            continue;
        which.push_back(s);
        beside.push_back(seeds[s]);
        if (meet(boxes[s], touched)) ground.push_back(cells.of_seed[s]);  // the others keep theirs
    }
    const Region free = region_of(ground, false);
    if (const double off = area_mm2(subtract({{wedge}}, free)); off > 0.01) {
        // Over another wedge, or off the field: there it is cut along the edge.
        const Region within = intersect({{wedge}}, free);
        if (within.rings.size() != 1 || off > kMostOff * area_mm2(wedge)) return false;
        wedge = within.rings[0];
    }
    const Region left = subtract(free, {{wedge}});
    const Cells shared = share_out(beside, left);
    for (std::size_t k = 0; k < which.size(); ++k) {
        if (!meet(boxes[which[k]], touched)) continue;
        const Ring& was = cells.of_seed[which[k]];
        if (shared.of_seed[k].size() < 3 || area_mm2(shared.of_seed[k]) < 0.5 * area_mm2(was)) return false;
    }
    for (std::size_t k = 0; k < which.size(); ++k) {
        if (!meet(boxes[which[k]], touched)) continue;
        cells.of_seed[which[k]] = shared.of_seed[k];
        boxes[which[k]] = bounds(shared.of_seed[k]);
    }
    cells.of_seed[last] = wedge;
    boxes[last] = bounds(wedge);
    done[last] = 1;
    return true;
}

std::size_t cell_at(const Cells& cells, const std::vector<Box>& boxes, const std::vector<std::size_t>& close,
                    const glm::dvec2& p) {
    for (const std::size_t s : close)
        if (p.x >= boxes[s].low.x && p.y >= boxes[s].low.y && p.x <= boxes[s].high.x &&
            p.y <= boxes[s].high.y && contains(cells.of_seed[s], p))
            return s;
    return boxes.size();
}

// Whether a head that ends at `p` would meet a head of the row beyond: two other cells have a corner there.
bool meets_head(const Cells& cells, const std::vector<Box>& boxes, const std::vector<std::size_t>& close,
                const glm::dvec2& p, std::initializer_list<std::size_t> own, const RowEnd& end,
                const ForkRules& rules) {
    const double near = end.at_edge ? std::max(kInLine * rules.length_mm, kCrossing * rules.joint_mm)
                                    : kCrossing * rules.joint_mm;
    int met = 0;
    for (const std::size_t s : close) {
        if (std::find(own.begin(), own.end(), s) != own.end() || p.x < boxes[s].low.x - near ||
            p.y < boxes[s].low.y - near || p.x > boxes[s].high.x + near || p.y > boxes[s].high.y + near)
            continue;
        const Ring& ring = cells.of_seed[s];
        met += std::any_of(ring.begin(), ring.end(),
                           [&](const glm::dvec2& q) { return glm::distance(p, q) < near; });
    }
    return met > 1;
}

// A pair of cells of one row that may be parted anew at the line across a tip.
struct HeadAtTip {
    std::size_t behind = 0, beyond = 0;
    double whole = 0;  // area of the lesser part, mm2
    Ring back, front;
};

std::optional<HeadAtTip> head_at_tip(const Cells& cells, const std::vector<Seed>& seeds,
                                     const std::vector<Box>& boxes, std::span<const std::size_t> row_of,
                                     const std::vector<std::size_t>& close, const Nib& nib,
                                     const RowEnd& row_end, double side, const ForkRules& rules) {
    const std::size_t at =
        cell_at(cells, boxes, close,
                nib.tip + side * (nib.blunt_mm + 0.3 * rules.width_mm) * nib.left + 1e-3 * nib.out);
    if (at >= row_of.size()) return std::nullopt;
    // Square to its own row: a wedge leans.
    const glm::dvec2 out = glm::dot(seeds[at].along, nib.out) < 0 ? -seeds[at].along : seeds[at].along;
    const glm::dvec2 left(-out.y, out.x);
    std::optional<HeadAtTip> best;
    const auto neighbour = [&](std::size_t from, bool onward) {
        std::size_t s = from;
        do {
            if (!onward && s == 0) return boxes.size();
            s = onward ? s + 1 : s - 1;
        } while (s < row_of.size() && row_of[s] == row_of[from] && cells.of_seed[s].size() < 3);
        return s < row_of.size() && row_of[s] == row_of[from] ? s : boxes.size();
    };
    for (const bool onward : {false, true}) {
        const std::size_t next = neighbour(at, onward);
        if (next == boxes.size()) continue;
        const Region both = unite({{cells.of_seed[at]}}, {{cells.of_seed[next]}});
        if (both.rings.size() != 1) continue;
        const glm::dvec2 far = 4 * rules.length_mm * out, wide = 8 * rules.length_mm * left;
        const Region back = intersect(
            both, region_of({nib.tip - wide, nib.tip + wide, nib.tip + wide - far, nib.tip - wide - far}));
        const Region front = intersect(
            both, region_of({nib.tip - wide, nib.tip + wide, nib.tip + wide + far, nib.tip - wide + far}));
        if (back.rings.size() != 1 || front.rings.size() != 1) continue;
        const double lesser = std::min(area_mm2(back), area_mm2(front));
        if (lesser < kLeast * rules.length_mm * rules.width_mm || (best && best->whole >= lesser)) continue;
        glm::dvec2 far_end = nib.tip;  // of the head, away from the tip
        for (const auto& p : back.rings[0])
            if (std::abs(glm::dot(p - nib.tip, out)) < 1e-3 &&
                glm::distance(p, nib.tip) > glm::distance(far_end, nib.tip))
                far_end = p;
        if (meets_head(cells, boxes, close, far_end, {at, next, row_end.last}, row_end, rules)) continue;
        const bool own_behind =
            glm::dot(centroid(cells.of_seed[at]), out) < glm::dot(centroid(cells.of_seed[next]), out);
        best =
            HeadAtTip{own_behind ? at : next, own_behind ? next : at, lesser, back.rings[0], front.rings[0]};
    }
    return best;
}

}  // namespace

void cut_forks(Cells& cells, std::vector<Seed>& seeds, std::span<const std::size_t> row_of,
               std::span<const RowEnd> ends, const ForkRules& rules) {
    if (ends.empty()) return;
    std::vector<Box> boxes;
    for (const auto& cell : cells.of_seed) boxes.push_back(bounds(cell));
    PointGrid<std::size_t> grid(4 * std::max(rules.length_mm, rules.width_mm));
    for (std::size_t i = 0; i < boxes.size(); ++i)
        if (cells.of_seed[i].size() > 2) grid.add((boxes[i].low + boxes[i].high) / 2.0, i);
    std::vector<char> done(boxes.size(), 0);  // wedges stay as they were cut
    for (const RowEnd& end : ends) {
        if (done[end.last] || done[end.before]) continue;
        const auto nib = nib_of(cells.of_seed[end.last], cells.of_seed[end.before], rules);
        if (!nib) continue;
        std::vector<std::size_t> close;
        grid.each_near(nib->tip, 1, [&](std::size_t i) { close.push_back(i); });
        std::sort(close.begin(), close.end());
        // To that side on which a head can come to the tip with the fuller pieces.
        const auto on_left = head_at_tip(cells, seeds, boxes, row_of, close, *nib, end, 1, rules);
        const auto on_right = head_at_tip(cells, seeds, boxes, row_of, close, *nib, end, -1, rules);
        const bool tip_left = (on_left ? on_left->whole : 0) >= (on_right ? on_right->whole : 0);
        Ring wedge = wedge_of(*nib, tip_left);
        if (area_mm2(wedge) <= 0 ||
            !make_room(cells, seeds, end, wedge, boxes, done, close, 1.5 * rules.length_mm))
            continue;
        const bool forward = glm::dot(seeds[end.last].along, nib->out) >= 0;
        seeds[end.last].along = forward ? nib->out : -nib->out;
        auto head = head_at_tip(cells, seeds, boxes, row_of, close, *nib, end, tip_left ? 1 : -1, rules);
        if (!head || done[head->behind] || done[head->beyond]) continue;
        cells.of_seed[head->behind] = std::move(head->back);
        cells.of_seed[head->beyond] = std::move(head->front);
        boxes[head->behind] = bounds(cells.of_seed[head->behind]);
        boxes[head->beyond] = bounds(cells.of_seed[head->beyond]);
        done[head->behind] = done[head->beyond] = 1;
    }
}

}  // namespace rakelight
