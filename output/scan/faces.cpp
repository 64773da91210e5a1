#include "output/scan/faces.h"

#include <algorithm>
#include <cmath>

namespace rakelight {
namespace {

using glm::dvec2;

constexpr double kLeave_mm = 0.5;  // from a node: where the order of edges round it is taken

/// Half-edge 2e runs along edge e, 2e + 1 back.
struct Walk {
    Ring ring;
    std::vector<std::size_t> half_edges;
    double area_mm2 = 0;
    int component = -1;
};

double signed_area(const Ring& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const dvec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        sum += a.x * b.y - a.y * b.x;
    }
    return sum / 2;
}

bool inside(const Ring& ring, const dvec2& p) {
    bool in = false;
    for (std::size_t i = 0, k = ring.size() - 1; i < ring.size(); k = i++) {
        const dvec2 &a = ring[i], &b = ring[k];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
    }
    return in;
}

class Walker {
  public:
    explicit Walker(const LineGraph& graph) : graph_(graph) {
        std::vector<std::vector<std::pair<double, std::size_t>>> round(graph.nodes());
        for (std::size_t e = 0; e < graph.edges().size(); ++e) {
            if (graph.edges()[e].gone) continue;
            for (const std::size_t half : {2 * e, 2 * e + 1})
                round[static_cast<std::size_t>(start(half))].emplace_back(angle(half), half);
        }
        next_.assign(2 * graph.edges().size(), 0);
        for (auto& around : round) {
            std::sort(around.begin(), around.end());
            // Arriving by the twin of one, leave by the one before it: the face stays on the same hand.
            for (std::size_t i = 0; i < around.size(); ++i)
                next_[around[i].second ^ 1] = around[(i + around.size() - 1) % around.size()].second;
        }
    }

    std::vector<Walk> walks() const {
        const std::vector<int> component = components();
        std::vector<char> seen(next_.size(), 0);
        std::vector<Walk> all;
        for (std::size_t half = 0; half < next_.size(); ++half) {
            if (seen[half] || graph_.edges()[half / 2].gone) continue;
            Walk walk;
            walk.component = component[static_cast<std::size_t>(start(half))];
            for (std::size_t h = half; !seen[h]; h = next_[h]) {
                seen[h] = 1;
                walk.half_edges.push_back(h);
                const auto& p = graph_.edges()[h / 2].points_mm;
                if (h % 2 == 0)
                    walk.ring.insert(walk.ring.end(), p.begin(), p.end() - 1);
                else
                    walk.ring.insert(walk.ring.end(), p.rbegin(), p.rend() - 1);
            }
            walk.area_mm2 = signed_area(walk.ring);
            all.push_back(std::move(walk));
        }
        return all;
    }

  private:
    int start(std::size_t half) const {
        const GraphEdge& e = graph_.edges()[half / 2];
        return half % 2 == 0 ? e.from : e.to;
    }
    double angle(std::size_t half) const {
        std::vector<dvec2> p = graph_.edges()[half / 2].points_mm;
        if (half % 2 == 1) std::reverse(p.begin(), p.end());
        dvec2 to = p[1];
        for (std::size_t i = 1; i < p.size(); ++i) {
            if (glm::distance(p[i], p[0]) < kLeave_mm) continue;
            // Where the chain leaves the circle.
            const dvec2 a = p[i - 1] - p[0], d = p[i] - p[i - 1];
            const double aa = glm::dot(d, d), b = glm::dot(a, d), c = glm::dot(a, a) - kLeave_mm * kLeave_mm;
            to = p[i - 1] + (-b + std::sqrt(std::max(b * b - aa * c, 0.0))) / aa * d;
            break;
        }
        return std::atan2(to.y - p[0].y, to.x - p[0].x);
    }
    std::vector<int> components() const {
        std::vector<int> parent(graph_.nodes());
        for (std::size_t n = 0; n < parent.size(); ++n) parent[n] = static_cast<int>(n);
        const auto root = [&](int n) {
            while (parent[static_cast<std::size_t>(n)] != n) {
                parent[static_cast<std::size_t>(n)] =
                    parent[static_cast<std::size_t>(parent[static_cast<std::size_t>(n)])];
                n = parent[static_cast<std::size_t>(n)];
            }
            return n;
        };
        for (const GraphEdge& e : graph_.edges())
            if (!e.gone) parent[static_cast<std::size_t>(root(e.from))] = root(e.to);
        std::vector<int> of(parent.size());
        for (std::size_t n = 0; n < of.size(); ++n) of[n] = root(static_cast<int>(n));
        return of;
    }

    const LineGraph& graph_;
    std::vector<std::size_t> next_;
};

/// Takes out edges with a loose end, again and again. \return whether there was one.
bool take_loose(LineGraph& graph, std::vector<GraphEdge>& taken) {
    bool any = false;
    for (bool more = true; more;) {
        more = false;
        const std::vector<int> degree = graph.degrees();
        for (std::size_t e = 0; e < graph.edges().size(); ++e) {
            const GraphEdge& edge = graph.edges()[e];
            if (edge.gone || (degree[static_cast<std::size_t>(edge.from)] > 1 &&
                              degree[static_cast<std::size_t>(edge.to)] > 1))
                continue;
            taken.push_back(edge);
            graph.remove(e);
            more = any = true;
        }
    }
    return any;
}

/// Takes out edges with the same face on both sides. \return whether there was one.
bool take_bridges(LineGraph& graph, const std::vector<Walk>& walks, std::vector<GraphEdge>& taken) {
    std::vector<int> of(2 * graph.edges().size(), -1);
    for (std::size_t w = 0; w < walks.size(); ++w)
        for (const std::size_t half : walks[w].half_edges) of[half] = static_cast<int>(w);
    bool any = false;
    for (std::size_t e = 0; e < graph.edges().size(); ++e) {
        if (graph.edges()[e].gone || of[2 * e] != of[2 * e + 1]) continue;
        taken.push_back(graph.edges()[e]);
        graph.remove(e);
        any = true;
    }
    return any;
}

/// Edges that were taken out, joined where two of them meet.
void add_open(const std::vector<GraphEdge>& taken, std::vector<std::vector<dvec2>>& open) {
    std::vector<TracedChain> chains;
    for (const GraphEdge& e : taken) chains.push_back({"", true, e.from, e.to, e.points_mm});
    LineGraph graph(chains);
    graph.join();
    for (const GraphEdge& e : graph.edges())
        if (!e.gone) open.push_back(e.points_mm);
}

void add_holes(const std::vector<Walk>& walks, std::vector<Face>& faces, const std::vector<int>& component) {
    for (const Walk& walk : walks) {
        if (walk.area_mm2 >= 0) continue;
        Face* around = nullptr;
        for (std::size_t f = 0; f < faces.size(); ++f)
            if (component[f] != walk.component && inside(faces[f].outer_mm, walk.ring.front()) &&
                (!around || faces[f].area_mm2 < around->area_mm2))
                around = &faces[f];
        if (around) around->holes_mm.push_back(walk.ring);
    }
}

}  // namespace

std::vector<Ring> Face::rings_mm() const {
    std::vector<Ring> rings{outer_mm};
    rings.insert(rings.end(), holes_mm.begin(), holes_mm.end());
    return rings;
}

bool Face::contains(const dvec2& p) const {
    return inside(outer_mm, p) &&
           std::none_of(holes_mm.begin(), holes_mm.end(), [&](const Ring& hole) { return inside(hole, p); });
}

std::vector<Face> faces_of(LineGraph& graph, std::vector<std::vector<dvec2>>& open) {
    std::vector<GraphEdge> taken;
    std::vector<Walk> walks;
    do {
        take_loose(graph, taken);
        walks = Walker(graph).walks();
    } while (take_bridges(graph, walks, taken));
    add_open(taken, open);
    std::vector<Face> faces;
    std::vector<int> component;
    for (const Walk& walk : walks) {
        if (walk.area_mm2 <= 0) continue;
        Face face{walk.ring, {}, {}, walk.area_mm2};
        for (const std::size_t half : walk.half_edges) face.edges.push_back(half / 2);
        faces.push_back(std::move(face));
        component.push_back(walk.component);
    }
    add_holes(walks, faces, component);
    return faces;
}

std::vector<Face> faces_without_specks(LineGraph& graph, double speck_mm, double sliver_mm,
                                       std::vector<std::vector<dvec2>>& open, std::size_t& merged) {
    merged = 0;
    for (int round = 0;; ++round) {
        std::vector<Face> faces = faces_of(graph, open);
        bool any = false;
        for (const Face& face : faces) {
            Ring closed = face.outer_mm;
            closed.push_back(closed.front());
            const double thickness = 2 * face.area_mm2 / length_mm(closed);
            if (face.area_mm2 >= speck_mm * speck_mm && thickness >= sliver_mm) continue;
            std::size_t longest = graph.edges().size();
            double most = 0;
            for (const std::size_t e : face.edges)
                if (const double l = length_mm(graph.edges()[e].points_mm);
                    !graph.edges()[e].gone && !graph.edges()[e].border && l > most) {
                    most = l;
                    longest = e;
                }
            if (longest == graph.edges().size()) continue;
            graph.remove(longest);
            any = true;
            ++merged;
        }
        if (!any || round > 8) return faces;
    }
}

}  // namespace rakelight
