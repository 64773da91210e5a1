#include "output/scan/line_graph.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "scene/geometry/thinning.h"

namespace rakelight {
namespace {

using glm::dvec2;

constexpr double kThinning_mm = 0.03;
constexpr double kTangent_mm = 3;      // over which the direction of a loose end is taken
constexpr double kNear_mm = 1;         // so near that direction does not count
constexpr double kOwn = 3;             // gaps along an edge within which it does not meet itself
constexpr double kAhead = 0.35;        // cosine: 70 degrees off what lies ahead is behind
constexpr double kStraight = 0.8;      // cosine: within 37 degrees a line goes on
constexpr double kUnder = 0.85;        // the same, 32 degrees: a line goes on under another
constexpr double kHidden_mm = 5;       // a tip or a corner that lies under another line
constexpr double kOver_mm = 2;         // from the middle of a line that covers another
constexpr double kSmoothing_mm = 0.8;  // standard deviation along a line

double cross(const dvec2& a, const dvec2& b) {
    return a.x * b.y - a.y * b.x;
}

dvec2 nearest_on(const dvec2& a, const dvec2& b, const dvec2& p) {
    const dvec2 d = b - a;
    const double all = glm::dot(d, d);
    return all > 0 ? a + std::clamp(glm::dot(p - a, d) / all, 0.0, 1.0) * d : a;
}

/// Where a ray meets a segment, as a distance along the ray.
std::optional<double> meets(const dvec2& from, const dvec2& way, const dvec2& a, const dvec2& b) {
    const dvec2 d = b - a;
    const double det = cross(way, d);
    if (std::abs(det) < 1e-12) return std::nullopt;
    const double along = cross(a - from, d) / det, part = cross(a - from, way) / det;
    if (along < 0 || part < 0 || part > 1) return std::nullopt;
    return along;
}

void append(std::vector<dvec2>& to, std::vector<dvec2> more, bool turned) {
    if (turned) std::reverse(more.begin(), more.end());
    to.insert(to.end(), more.begin() + (to.empty() ? 0 : 1), more.end());
}

/// Laplacian smoothing within bounds; the ends stay.
void relax(std::vector<dvec2>& p, bool loop, int rounds, double groove_mm) {
    const std::vector<dvec2> home = p;
    const std::size_t n = p.size();
    if (n < 3) return;
    std::vector<dvec2> next = p;
    for (int round = 0; round < rounds; ++round) {
        const auto put = [&](std::size_t i, const dvec2& before, const dvec2& after) {
            const dvec2 to = 0.5 * p[i] + 0.25 * (before + after);
            const double away = glm::distance(to, home[i]);
            next[i] = away > groove_mm ? home[i] + groove_mm / away * (to - home[i]) : to;
        };
        for (std::size_t i = 1; i + 1 < n; ++i) put(i, p[i - 1], p[i + 1]);
        if (loop) {
            put(0, p[n - 2], p[1]);
            next[n - 1] = next[0];
        }
        p.swap(next);
    }
}

}  // namespace

double length_mm(const std::vector<dvec2>& points) {
    double sum = 0;
    for (std::size_t i = 1; i < points.size(); ++i) sum += glm::distance(points[i - 1], points[i]);
    return sum;
}

LineGraph::LineGraph(const std::vector<TracedChain>& chains) {
    for (const TracedChain& chain : chains) {
        if (chain.points_mm.size() < 2) continue;
        const auto most = static_cast<std::size_t>(std::max(chain.from, chain.to));
        if (nodes_.size() <= most) nodes_.resize(most + 1);
        nodes_[static_cast<std::size_t>(chain.from)] = chain.points_mm.front();
        nodes_[static_cast<std::size_t>(chain.to)] = chain.points_mm.back();
        edges_.push_back({chain.from, chain.to, chain.points_mm});
    }
}

std::vector<int> LineGraph::degrees() const {
    std::vector<int> degree(nodes_.size(), 0);
    for (const GraphEdge& e : edges_)
        if (!e.gone) {
            ++degree[static_cast<std::size_t>(e.from)];
            ++degree[static_cast<std::size_t>(e.to)];
        }
    return degree;
}

void LineGraph::join() {
    std::vector<std::vector<std::size_t>> at(nodes_.size());
    for (std::size_t e = 0; e < edges_.size(); ++e)
        if (!edges_[e].gone)
            for (const int n : {edges_[e].from, edges_[e].to}) at[static_cast<std::size_t>(n)].push_back(e);
    for (std::size_t n = 0; n < nodes_.size(); ++n) {
        if (at[n].size() != 2 || at[n][0] == at[n][1]) continue;
        const std::size_t a = at[n][0], b = at[n][1];
        GraphEdge &first = edges_[a], &second = edges_[b];
        if (first.closing != second.closing || first.border != second.border) continue;
        const auto node = static_cast<int>(n);
        std::vector<dvec2> points;
        append(points, first.points_mm, first.from == node);
        append(points, second.points_mm, second.to == node);
        first.from = first.from == node ? first.to : first.from;
        first.to = second.from == node ? second.to : second.from;
        first.points_mm = std::move(points);
        second.gone = true;
        for (std::size_t& e : at[static_cast<std::size_t>(first.to)])
            if (e == b) e = a;
        at[n].clear();
    }
}

void LineGraph::prune(double whisker_mm, double mark_mm) {
    for (int round = 0; round < 3; ++round) {
        const std::vector<int> degree = degrees();
        for (GraphEdge& e : edges_) {
            if (e.gone) continue;
            const int a = degree[static_cast<std::size_t>(e.from)],
                      b = degree[static_cast<std::size_t>(e.to)];
            const double length = length_mm(e.points_mm);
            if (a == 1 && b == 1)
                e.gone = length < mark_mm;
            else if (a == 1 || b == 1)
                e.gone = length < whisker_mm;
            else if (e.from == e.to)
                e.gone = length < whisker_mm;
        }
        join();
    }
}

void LineGraph::smooth(double pixel_mm, double groove_mm) {
    const double spread_px = kSmoothing_mm / pixel_mm;
    const int rounds = static_cast<int>(std::clamp(2 * spread_px * spread_px, 4.0, 400.0));
    const std::vector<int> degree = degrees();
    for (GraphEdge& e : edges_) {
        if (e.gone) continue;
        const bool loop = e.from == e.to && degree[static_cast<std::size_t>(e.from)] == 2;
        relax(e.points_mm, loop, rounds, groove_mm);
        if (loop) nodes_[static_cast<std::size_t>(e.from)] = e.points_mm.front();
        e.points_mm = thinned(e.points_mm, false, kThinning_mm);
    }
}

std::vector<LineGraph::LooseEnd> LineGraph::loose_ends() const {
    const std::vector<int> degree = degrees();
    std::vector<LooseEnd> ends;
    for (std::size_t e = 0; e < edges_.size(); ++e) {
        if (edges_[e].gone) continue;
        if (degree[static_cast<std::size_t>(edges_[e].from)] == 1) ends.push_back({e, true});
        if (degree[static_cast<std::size_t>(edges_[e].to)] == 1) ends.push_back({e, false});
    }
    return ends;
}

int LineGraph::node_of(const LooseEnd& end) const {
    return end.at_from ? edges_[end.edge].from : edges_[end.edge].to;
}

void LineGraph::contract(double most_mm) {
    for (std::size_t s = 0; s < edges_.size(); ++s) {
        GraphEdge& shortest = edges_[s];
        const int a = shortest.from, b = shortest.to;
        if (shortest.gone || a == b || length_mm(shortest.points_mm) > most_mm) continue;
        const std::vector<int> degree = degrees();
        if (degree[static_cast<std::size_t>(a)] < 3 || degree[static_cast<std::size_t>(b)] < 3) continue;
        const dvec2 middle = 0.5 * (node_mm(a) + node_mm(b));
        shortest.gone = true;
        nodes_[static_cast<std::size_t>(a)] = middle;
        for (GraphEdge& e : edges_) {
            if (e.gone) continue;
            if (e.from == a || e.from == b) e.from = a, e.points_mm.front() = middle;
            if (e.to == a || e.to == b) e.to = a, e.points_mm.back() = middle;
        }
    }
}

void LineGraph::join_straight() {
    std::vector<std::vector<LooseEnd>> at(nodes_.size());
    for (std::size_t e = 0; e < edges_.size(); ++e) {
        if (edges_[e].gone) continue;
        at[static_cast<std::size_t>(edges_[e].from)].push_back({e, true});
        at[static_cast<std::size_t>(edges_[e].to)].push_back({e, false});
    }
    for (std::vector<LooseEnd>& ends : at) {
        if (ends.size() < 3) continue;
        const auto move_to_own_node = [&](const LooseEnd& end, int node) {
            (end.at_from ? edges_[end.edge].from : edges_[end.edge].to) = node;
        };
        while (!ends.empty()) {
            std::size_t first = 0, second = 0;
            double best = -kStraight;
            for (std::size_t i = 0; i < ends.size(); ++i)
                for (std::size_t k = i + 1; k < ends.size(); ++k) {
                    const double turn = glm::dot(tangent(ends[i].edge, ends[i].at_from),
                                                 tangent(ends[k].edge, ends[k].at_from));
                    if (turn < best) best = turn, first = i, second = k;
                }
            const auto node = static_cast<int>(nodes_.size());
            nodes_.push_back(place_of(ends[first]));
            move_to_own_node(ends[first], node);
            if (second > first) {
                move_to_own_node(ends[second], node);
                ends.erase(ends.begin() + static_cast<std::ptrdiff_t>(second));
            }
            ends.erase(ends.begin() + static_cast<std::ptrdiff_t>(first));
        }
    }
    join();
}

dvec2 LineGraph::ahead_of(const LooseEnd& end) const {
    return tangent(end.edge, end.at_from);
}

dvec2 LineGraph::tangent(std::size_t edge, bool at_from) const {
    std::vector<dvec2> p = edges_[edge].points_mm;
    if (!at_from) std::reverse(p.begin(), p.end());
    dvec2 back = p.back();
    double gone = 0;
    for (std::size_t i = 1; i < p.size(); ++i) {
        const double step = glm::distance(p[i - 1], p[i]);
        if (gone + step >= kTangent_mm) {
            back = glm::mix(p[i - 1], p[i], (kTangent_mm - gone) / step);
            break;
        }
        gone += step;
    }
    const dvec2 way = p.front() - back;
    const double length = glm::length(way);
    return length > 0 ? way / length : dvec2(1, 0);
}

bool LineGraph::crosses(const dvec2& a, const dvec2& b) const {
    const dvec2 way = b - a;
    for (const GraphEdge& e : edges_) {
        if (e.gone) continue;
        for (std::size_t i = 1; i < e.points_mm.size(); ++i)
            if (const auto at = meets(a, way, e.points_mm[i - 1], e.points_mm[i]);
                at && *at > 1e-6 && *at < 1 - 1e-6)
                return true;
    }
    return false;
}

void LineGraph::connect(int from, int to) {
    GraphEdge e{from, to, {node_mm(from), node_mm(to)}, true};
    edges_.push_back(std::move(e));
}

int LineGraph::split(const Meeting& m) {
    const GraphEdge whole = edges_[m.edge];
    const auto node = static_cast<int>(nodes_.size());
    nodes_.push_back(m.at_mm);
    const auto cut = whole.points_mm.begin() + static_cast<std::ptrdiff_t>(m.segment);
    GraphEdge first = whole, second = whole;
    first.to = second.from = node;
    first.points_mm.assign(whole.points_mm.begin(), cut);
    first.points_mm.push_back(m.at_mm);
    second.points_mm.assign(cut, whole.points_mm.end());
    second.points_mm.insert(second.points_mm.begin(), m.at_mm);
    edges_[m.edge] = std::move(first);
    edges_.push_back(std::move(second));
    return node;
}

std::vector<LineGraph::Meeting> LineGraph::meetings(const LooseEnd& end, double reach_mm, bool border) const {
    const dvec2 from = place_of(end), ahead = ahead_of(end);
    std::vector<Meeting> found;
    for (std::size_t e = 0; e < edges_.size(); ++e) {
        const GraphEdge& edge = edges_[e];
        if (edge.gone || edge.border != border) continue;
        const double all = e == end.edge ? length_mm(edge.points_mm) : 0;
        double along = 0;
        for (std::size_t i = 1; i < edge.points_mm.size(); ++i) {
            dvec2 a = edge.points_mm[i - 1], b = edge.points_mm[i];
            const double step = glm::distance(a, b);
            along += step;
            if (e == end.edge) {  // its own edge counts from some way off
                const double near_end = end.at_from ? along - step : all - along, own = kOwn * reach_mm;
                if (near_end + step <= own) continue;
                if (near_end < own)
                    (end.at_from ? a : b) = end.at_from ? glm::mix(a, b, (own - near_end) / step)
                                                        : glm::mix(b, a, (own - near_end) / step);
            }
            const dvec2 near = nearest_on(a, b, from);
            const double away = glm::distance(near, from);
            if (away > reach_mm) continue;
            const auto straight = meets(from, ahead, a, b);
            if (straight && *straight <= 1.6 * reach_mm)
                found.push_back({e, i, from + *straight * ahead, *straight / 1.6});
            else if (away <= kNear_mm || glm::dot(near - from, ahead) > kAhead * away)
                found.push_back({e, i, near, away});
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Meeting& a, const Meeting& b) { return a.cost < b.cost; });
    return found;
}

void LineGraph::lead_on(const std::vector<LooseEnd>& ends, double reach_mm, bool border) {
    std::vector<int> nodes;
    for (const LooseEnd& end : ends) nodes.push_back(node_of(end));
    for (const int node : nodes) {
        const auto now = loose_ends();  // edges are split while this goes on
        const auto end =
            std::find_if(now.begin(), now.end(), [&](const LooseEnd& e) { return node_of(e) == node; });
        if (end == now.end()) continue;
        for (const Meeting& m : meetings(*end, reach_mm, border)) {
            if (crosses(node_mm(node), glm::mix(node_mm(node), m.at_mm, 0.999))) continue;
            connect(node, split(m));
            if (border) edges_.back().closing = false;
            break;
        }
    }
}

void LineGraph::add_border(const dvec2& size_mm, double reach_mm) {
    const auto first = static_cast<int>(nodes_.size());
    const std::vector<LooseEnd> ends = loose_ends();
    nodes_.insert(nodes_.end(), {dvec2(0), dvec2(size_mm.x, 0), size_mm, dvec2(0, size_mm.y)});
    for (int i = 0; i < 4; ++i) {
        GraphEdge side{first + i, first + (i + 1) % 4, {}, false, true};
        side.points_mm = {node_mm(side.from), node_mm(side.to)};
        edges_.push_back(std::move(side));
    }
    lead_on(ends, reach_mm, true);
}

void LineGraph::join_ends(double most_mm, double least_facing,
                          const std::function<bool(const dvec2&, const dvec2&)>& allowed) {
    const std::vector<LooseEnd> ends = loose_ends();
    struct Pair {
        double cost;
        std::size_t a, b;
    };
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < ends.size(); ++i)
        for (std::size_t k = i + 1; k < ends.size(); ++k) {
            const dvec2 a = place_of(ends[i]), b = place_of(ends[k]);
            const double away = glm::distance(a, b);
            if (away > most_mm) continue;
            if (ends[i].edge == ends[k].edge && length_mm(edges_[ends[i].edge].points_mm) < kOwn * most_mm)
                continue;
            const double facing =
                away > 0
                    ? std::min(glm::dot(b - a, ahead_of(ends[i])), glm::dot(a - b, ahead_of(ends[k]))) / away
                    : 1;
            if (away > kNear_mm && facing < least_facing) continue;
            if (allowed(a, b)) pairs.push_back({away * (2 - facing), i, k});
        }
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const Pair& a, const Pair& b) { return a.cost < b.cost; });
    std::vector<char> joined(ends.size(), 0);
    for (const Pair& p : pairs) {
        if (joined[p.a] || joined[p.b] || crosses(place_of(ends[p.a]), place_of(ends[p.b]))) continue;
        connect(node_of(ends[p.a]), node_of(ends[p.b]));
        joined[p.a] = joined[p.b] = 1;
    }
}

void LineGraph::close_gaps(double gap_mm) {
    join_ends(gap_mm, kAhead, [](const dvec2&, const dvec2&) { return true; });
    lead_on(loose_ends(), gap_mm, false);
}

void LineGraph::go_under(const std::vector<TracedChain>& over, double most_mm) {
    const auto covered = [&](const dvec2& p) {
        return std::any_of(over.begin(), over.end(), [&](const TracedChain& chain) {
            return std::any_of(chain.points_mm.begin(), chain.points_mm.end(),
                               [&](const dvec2& q) { return glm::distance(p, q) < kOver_mm; });
        });
    };
    const auto hidden = [&](const dvec2& a, const dvec2& b) {
        for (int k = 1; k < 8; ++k)
            if (!covered(glm::mix(a, b, k / 8.0))) return false;
        return true;
    };
    const std::size_t before = edges_.size();
    join_ends(most_mm, kUnder, hidden);
    join_ends(kHidden_mm, -1,
              [&](const dvec2& a, const dvec2& b) { return covered(a) && covered(b) && hidden(a, b); });
    for (std::size_t e = before; e < edges_.size(); ++e) edges_[e].closing = false;
}

}  // namespace rakelight
