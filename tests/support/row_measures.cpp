#include "tests/support/row_measures.h"

#include <algorithm>
#include <boost/polygon/voronoi.hpp>
#include <cmath>
#include <map>
#include <set>
#include <unordered_map>

#include "scene/geometry/polygon.h"
#include "scene/opus/cutting.h"

namespace rakelight {
namespace {

constexpr double kPerMm = 1e4;
constexpr double kMitre = 0.643;  // cosine of 50 degrees: rows that turn more do not go on, they are mitred
using Diagram = boost::polygon::voronoi_diagram<double>;

// Edges of all pieces in square buckets.
class EdgeGrid {
  public:
    struct Edge {
        glm::dvec2 a, b;
        std::uint32_t piece;
    };
    EdgeGrid(std::span<const Piece> pieces, double size_mm) : size_mm_(size_mm) {
        for (std::uint32_t p = 0; p < pieces.size(); ++p) {
            const auto& ring = pieces[p].outline_mm;
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const Edge e{ring[i], ring[(i + 1) % ring.size()], p};
                const glm::ivec2 low(glm::floor(glm::min(e.a, e.b) / size_mm_));
                const glm::ivec2 high(glm::floor(glm::max(e.a, e.b) / size_mm_));
                for (int y = low.y; y <= high.y; ++y)
                    for (int x = low.x; x <= high.x; ++x) buckets_[key(x, y)].push_back(e);
            }
        }
    }
    template <class Visit>
    void near(const glm::dvec2& p, Visit&& visit) const {
        const glm::ivec2 c(glm::floor(p / size_mm_));
        for (int y = c.y - 1; y <= c.y + 1; ++y)
            for (int x = c.x - 1; x <= c.x + 1; ++x)
                if (const auto it = buckets_.find(key(x, y)); it != buckets_.end())
                    for (const auto& e : it->second) visit(e);
    }

  private:
    static std::uint64_t key(int x, int y) {
        return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(x)) << 32) |
               static_cast<std::uint32_t>(y);
    }
    double size_mm_;
    std::unordered_map<std::uint64_t, std::vector<Edge>> buckets_;
};

// The Voronoi diagram of points along the edges of all pieces: what lies between cells of different pieces
// is the middle of a joint.
class JointDiagram {
  public:
    using Edge = Diagram::edge_type;
    using Vertex = Diagram::vertex_type;

    JointDiagram(std::span<const Piece> pieces, double step_mm) {
        for (std::uint32_t p = 0; p < pieces.size(); ++p)
            for (const auto& [a, b] : edges(pieces[p].outline_mm)) {
                const int parts = std::max(1, static_cast<int>(glm::distance(a, b) / step_mm));
                for (int k = 0; k < parts; ++k) {
                    const glm::dvec2 q = glm::mix(a, b, static_cast<double>(k) / parts) * kPerMm;
                    sites_.emplace_back(static_cast<std::int32_t>(std::lround(q.x)),
                                        static_cast<std::int32_t>(std::lround(q.y)));
                    owner_.push_back(p);
                }
            }
        boost::polygon::construct_voronoi(sites_.begin(), sites_.end(), &diagram_);
    }
    const Diagram& all() const { return diagram_; }
    std::uint32_t owner_of(const Edge& e) const { return owner_[e.cell()->source_index()]; }
    static glm::dvec2 point(const Vertex& v) { return glm::dvec2(v.x(), v.y()) / kPerMm; }
    double gap(const Edge& e, const Vertex& v) const {
        const auto& s = sites_[e.cell()->source_index()];
        return 2 * glm::distance(point(v), glm::dvec2(s.x(), s.y()) / kPerMm);
    }

  private:
    std::vector<boost::polygon::point_data<std::int32_t>> sites_;
    std::vector<std::uint32_t> owner_;
    Diagram diagram_;
};

// The middle line between two pieces.
struct MiddleLine {
    glm::dvec2 moment{0};
    double length = 0;
    std::vector<glm::dvec2> ends;

    void add(const glm::dvec2& p, const glm::dvec2& q) {
        const double part = glm::distance(p, q);
        moment += part * 0.5 * (p + q);
        length += part;
        ends.push_back(p);
        ends.push_back(q);
    }
    glm::dvec2 farthest_from(const glm::dvec2& p) const {
        return *std::max_element(ends.begin(), ends.end(), [&](const glm::dvec2& a, const glm::dvec2& b) {
            return glm::distance(a, p) < glm::distance(b, p);
        });
    }
};

using PiecePair = std::pair<std::uint32_t, std::uint32_t>;

std::map<PiecePair, MiddleLine> middle_lines(const JointDiagram& diagram, double reach_mm) {
    std::map<PiecePair, MiddleLine> lines;
    for (const auto& e : diagram.all().edges()) {
        if (!e.is_finite()) continue;
        const auto a = diagram.owner_of(e), b = diagram.owner_of(*e.twin());
        if (a >= b) continue;
        if (diagram.gap(e, *e.vertex0()) > reach_mm || diagram.gap(e, *e.vertex1()) > reach_mm) continue;
        lines[{a, b}].add(JointDiagram::point(*e.vertex0()), JointDiagram::point(*e.vertex1()));
    }
    return lines;
}

Joint joint_of(const PiecePair& pair, const MiddleLine& line, std::span<const Piece> pieces) {
    const glm::dvec2 from = line.farthest_from(line.ends[0]), to = line.farthest_from(from);
    Joint j;
    j.a = pair.first;
    j.b = pair.second;
    j.middle_mm = line.moment / line.length;
    j.length_mm = glm::distance(from, to);
    if (j.length_mm > 0) j.along = (to - from) / j.length_mm;
    j.head = std::abs(glm::dot(j.along, pieces[j.a].along)) < 0.7 &&
             std::abs(glm::dot(j.along, pieces[j.b].along)) < 0.7 &&
             std::abs(glm::dot(pieces[j.a].along, pieces[j.b].along)) > kMitre;
    return j;
}

}  // namespace

JointNet joint_net(std::span<const Piece> pieces, double reach_mm) {
    const JointDiagram diagram(pieces, reach_mm / 6);
    JointNet net;
    for (const auto& [pair, line] : middle_lines(diagram, reach_mm))
        if (line.length > 0) net.joints.push_back(joint_of(pair, line, pieces));
    for (const auto& v : diagram.all().vertices()) {
        std::set<std::uint32_t> met;
        const auto* e = v.incident_edge();
        double width = 0;
        do {
            met.insert(diagram.owner_of(*e));
            width = std::max(width, diagram.gap(*e, v));
            e = e->rot_next();
        } while (e != v.incident_edge());
        if (met.size() < 3 || width > reach_mm) continue;
        std::vector<std::uint32_t> ids(met.begin(), met.end());
        for (std::size_t k = 2; k < ids.size(); ++k)
            net.junctions.push_back({JointDiagram::point(v), {ids[0], ids[k - 1], ids[k]}});
    }
    return net;
}

std::vector<HeadOffset> head_offsets(std::span<const Piece> pieces, const JointNet& net, double pitch_mm) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::size_t> head;
    std::vector<std::vector<std::size_t>> of_piece(pieces.size());
    for (std::size_t j = 0; j < net.joints.size(); ++j) {
        const Joint& joint = net.joints[j];
        const double across = std::sqrt(std::max(1.0, area_mm2(pieces[joint.a].outline_mm)));
        if (!joint.head || joint.length_mm < 0.3 * across) continue;
        head[{joint.a, joint.b}] = j;
        of_piece[joint.a].push_back(j);
        of_piece[joint.b].push_back(j);
    }
    std::vector<HeadOffset> offsets;
    for (const auto& junction : net.junctions)
        for (std::size_t k = 0; k < 3; ++k) {
            const auto a = junction.pieces[k == 0 ? 1 : 0], b = junction.pieces[k == 2 ? 1 : 2];
            const auto c = junction.pieces[k];
            const auto it = head.find({a, b});
            if (it == head.end()) continue;
            // Of the three pairs only that of the row that ends here is a head; at a crossing there are two.
            double nearest = 1e300, low = 1e300, high = -1e300;
            for (const auto j : of_piece[c]) {
                const Joint& other = net.joints[j];
                if (other.a == a || other.b == a || other.a == b || other.b == b) continue;
                const double off = glm::dot(other.middle_mm - junction.at_mm, pieces[c].along);
                nearest = std::min(nearest, std::abs(off));
                low = std::min(low, off);
                high = std::max(high, off);
            }
            const double own_pitch = high - low;  // 0 where the piece has one head only
            const double pitch = own_pitch > 0.25 * pitch_mm ? std::min(own_pitch, pitch_mm) : pitch_mm;
            if (nearest < 1e300) offsets.push_back({nearest / pitch, it->second});
        }
    return offsets;
}

std::vector<char> in_row(std::span<const Piece> pieces, const JointNet& net) {
    std::vector<char> before(pieces.size(), 0), after(pieces.size(), 0);
    for (const auto& j : net.joints) {
        if (!j.head) continue;
        for (const auto p : {j.a, j.b}) {
            const auto& piece = pieces[p];
            if (j.length_mm < 0.5 * std::sqrt(area_mm2(piece.outline_mm))) continue;
            (glm::dot(j.middle_mm - centroid(piece.outline_mm), piece.along) > 0 ? after : before)[p] = 1;
        }
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) before[i] = before[i] && after[i];
    return before;
}

std::size_t triangles_together(std::span<const Piece> pieces, const JointNet& net) {
    return static_cast<std::size_t>(std::count_if(net.joints.begin(), net.joints.end(), [&](const Joint& j) {
        return pieces[j.a].outline_mm.size() == 3 && pieces[j.b].outline_mm.size() == 3;
    }));
}

std::size_t neighbours_nearer_than(double share, const JointNet& net, std::span<const HeadOffset> offsets) {
    std::set<std::size_t> near;
    for (const auto& o : offsets)
        if (o.share < share) near.insert(o.joint);
    std::size_t pairs = 0;
    for (auto i = near.begin(); i != near.end(); ++i)
        for (auto j = std::next(i); j != near.end(); ++j) {
            const Joint &p = net.joints[*i], &q = net.joints[*j];
            pairs += p.a == q.a || p.a == q.b || p.b == q.a || p.b == q.b;
        }
    return pairs;
}

std::size_t crossings(const JointNet& net, double within_mm) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<glm::dvec2>> of_pair;
    for (const auto& j : net.junctions)
        for (std::size_t k = 0; k < 3; ++k)
            of_pair[{j.pieces[k == 0 ? 1 : 0], j.pieces[k == 2 ? 1 : 2]}].push_back(j.at_mm);
    std::size_t count = 0;
    for (const auto& [pair, at] : of_pair)
        for (std::size_t i = 0; i < at.size(); ++i)
            for (std::size_t j = 0; j < i; ++j) count += glm::distance(at[i], at[j]) < within_mm;
    return count;
}

std::vector<double> junction_angles_deg(const JointNet& net, std::span<const Piece> pieces, double over_mm) {
    // The joint of two pieces leaves the junction along the mean of their two facing edges; a piece's edges
    // are those that leave its corner next to the junction.
    std::vector<double> angles;
    for (const auto& j : net.junctions) {
        std::array<glm::dvec2, 3> way{};
        for (std::size_t k = 0; k < 3; ++k) {
            const auto a = j.pieces[k == 0 ? 1 : 0], b = j.pieces[k == 2 ? 1 : 2];
            // Points as near to a as to b lie on their joint: take where a circle round the junction meets
            // it.
            glm::dvec2 best{0};
            double least = 1e300;
            for (int t = 0; t < 360; ++t) {
                const glm::dvec2 d(std::cos(glm::radians(1.0 * t)), std::sin(glm::radians(1.0 * t)));
                const glm::dvec2 p = j.at_mm + over_mm * d;
                const auto off = [&](std::uint32_t piece) {
                    const auto& ring = pieces[piece].outline_mm;
                    if (contains(ring, p)) return -1.0;
                    double m = 1e300;
                    for (std::size_t i = 0; i < ring.size(); ++i)
                        m = std::min(m, distance_mm(p, ring[i], ring[(i + 1) % ring.size()]));
                    return m;
                };
                const double da = off(a), db = off(b);
                if (da < 0 || db < 0) continue;
                if (const double miss = std::abs(da - db) + 0.3 * (da + db); miss < least) {
                    least = miss;
                    best = d;
                }
            }
            way[k] = best;
        }
        std::array<double, 3> turn{};
        for (std::size_t k = 0; k < 3; ++k) turn[k] = std::atan2(way[k].y, way[k].x);
        std::sort(turn.begin(), turn.end());
        angles.push_back(glm::degrees(turn[1] - turn[0]));
        angles.push_back(glm::degrees(turn[2] - turn[1]));
        angles.push_back(360 - glm::degrees(turn[2] - turn[0]));
    }
    return angles;
}

std::vector<double> joint_widths_mm(std::span<const Piece> pieces, double reach_mm) {
    const EdgeGrid grid(pieces, 1.5 * reach_mm);
    std::vector<double> widths;
    for (std::uint32_t p = 0; p < pieces.size(); ++p) {
        const auto& ring = pieces[p].outline_mm;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const glm::dvec2 a = ring[i], side = ring[(i + 1) % ring.size()] - a;
            const double length = glm::length(side);
            const int n = static_cast<int>(length / (0.5 * reach_mm));
            for (int k = 0; k < n; ++k) {
                const glm::dvec2 from = a + side * ((k + 0.5) / n),
                                 out = glm::dvec2(side.y, -side.x) / length;
                double nearest = reach_mm;
                bool faces = false;
                grid.near(from, [&](const EdgeGrid::Edge& e) {
                    if (e.piece == p) return;
                    const glm::dvec2 other = e.b - e.a, r = e.a - from;
                    const double det = cross(out, other);
                    if (std::abs(det) < 1e-12) return;
                    const double t = cross(r, other) / det, u = cross(r, out) / det;
                    if (t < 0 || t >= nearest || u < 0 || u > 1) return;
                    nearest = t;
                    faces = glm::dot(glm::dvec2(other.y, -other.x), out) < -0.85 * glm::length(other);
                });
                if (faces) widths.push_back(nearest);
            }
        }
    }
    return widths;
}

double wedge_deg(const Piece& piece) {
    glm::dvec2 front{0}, back{0};
    const auto& ring = piece.outline_mm;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const glm::dvec2 side = ring[(i + 1) % ring.size()] - ring[i];
        const glm::dvec2 out(side.y, -side.x);
        const double lean = glm::dot(out, piece.along) / std::max(glm::length(out), 1e-12);
        if (lean > 0.75) front += out;
        if (lean < -0.75) back -= out;
    }
    if (glm::length(front) <= 0 || glm::length(back) <= 0) return 0;
    return glm::degrees(std::abs(std::atan2(cross(front, back), glm::dot(front, back))));
}

double least_width_mm(const Ring& outline) {
    const Ring hull = convex_hull(outline);
    double least = 1e300;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const glm::dvec2 side = hull[(i + 1) % hull.size()] - hull[i];
        double width = 0;
        for (const auto& p : hull) width = std::max(width, cross(side, p - hull[i]) / glm::length(side));
        least = std::min(least, width);
    }
    return least;
}

double least_edge_mm(const Ring& outline) {
    double least = 1e300;
    for (std::size_t i = 0; i < outline.size(); ++i)
        least = std::min(least, glm::distance(outline[i], outline[(i + 1) % outline.size()]));
    return least;
}

double least_angle_deg(const Ring& outline) {
    double least = 360;
    for (std::size_t i = 0; i < outline.size(); ++i) least = std::min(least, interior_angle_deg(outline, i));
    return least;
}

Spread spread_of(std::span<const double> values) {
    Spread s;
    s.count = values.size();
    if (values.empty()) return s;
    const auto n = static_cast<double>(values.size());
    s.least = s.most = values[0];
    for (const double v : values) {
        s.mean += v / n;
        s.least = std::min(s.least, v);
        s.most = std::max(s.most, v);
    }
    for (const double v : values) s.sd += (v - s.mean) * (v - s.mean) / n;
    s.sd = std::sqrt(s.sd);
    return s;
}

double coverage(std::span<const Piece> pieces, double ground_mm2) {
    double sum = 0;
    for (const auto& p : pieces) sum += area_mm2(p.outline_mm);
    return sum / ground_mm2;
}

}  // namespace rakelight
